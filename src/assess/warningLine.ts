import type { AssessmentWarning } from './Assessment';

/** A warning of an assessment, as a line: the runs where it holds, what it is about, where, and what there is to know. */
export function warningLine(
  { recording, section, from, to, message }: AssessmentWarning,
  runs: readonly string[] = [],
): string {
  const stretch =
    from === null || to === null ? undefined : from === to ? `${metres(from)} m` : `${metres(from)}–${metres(to)} m`;
  const about = [...runs, recording, section, stretch].filter(Boolean).join(', ');
  return about ? `${about}: ${message}` : message;
}

const metres = (along: number) => along.toFixed(0);

import { directedHausdorff } from '../metrics';
import type { Route } from '../model';
import type { AssessedRecording, AssessmentRow, AssessmentWarning, VerdictLimit } from './Assessment';
import { withoutSides } from './withoutSides';

/** Which recordings a route was drafted from and not corrected since: they can't be judged by it. */
export interface OwnDrafts {
  readonly names: ReadonlySet<string>;
  readonly warnings: readonly Pick<AssessmentWarning, 'reason' | 'recording' | 'from' | 'to' | 'message'>[];
}

const MESSAGE =
  'The line was drafted from this recording and not corrected since: how far it lies from it, and to which side, says nothing of where the body was.';

/**
 * Recordings that the route was drafted from, where no part of that draft was moved by more than its tolerance. Cut, reversed or
 * joined with other legs it is the same draft.
 */
export function ownDrafts(
  { lon, lat, alongTrack, provenance }: Route,
  recordings: readonly Pick<AssessedRecording, 'name' | 'hash'>[],
): OwnDrafts {
  const drafts = provenance.flatMap(({ from, to, drafted }) => (drafted ? [{ from, to, drafted }] : []));
  const names = new Set<string>();
  const warnings: OwnDrafts['warnings'][number][] = [];
  for (const { from, to, drafted } of drafts) {
    const part = Array.from(alongTrack, (_, i) => i).filter((i) => alongTrack[i] >= from && alongTrack[i] <= to);
    const line = part.map((i): [number, number] => [lon[i], lat[i]]);
    const moved = directedHausdorff(line, [...drafted.line]).distance;
    if (moved > drafted.tolerance) {
      const message = `Drafted from ${count(drafted.recordings.length)} and corrected by hand since, by up to ${moved.toFixed(1)} m: what was left as it was drafted rests on nothing else.`;
      warnings.push({ reason: 'drafted', recording: null, from, to, message });
      continue;
    }
    const message = `Drafted from ${count(drafted.recordings.length)}, not corrected since: a first line to correct, no reference.`;
    warnings.push({ reason: 'drafted', recording: null, from, to, message });
    for (const { name, hash } of recordings) if (drafted.recordings.includes(hash)) names.add(name);
  }
  for (const name of names)
    warnings.push({ reason: 'own-draft', recording: name, from: null, to: null, message: MESSAGE });
  return { names, warnings };
}

/** A row of a recording on a line that was drafted from it: no side, no verdict. */
export function onOwnDraft<Row extends Omit<AssessmentRow, 'verdictLimit'>>(row: Row): Row {
  const limit = { reason: 'own-draft' as const, message: MESSAGE };
  return { ...withoutSides(row), medianOffset: null, lineVerdict: 'undecided', limits: [...row.limits, limit] };
}

/** Why no verdict rests on two of which the line was drafted from one, or both. */
export function ownDraftLimit({ names }: OwnDrafts, ...compared: readonly string[]): VerdictLimit | undefined {
  const own = compared.filter((name) => names.has(name));
  if (own.length === 0) return undefined;
  const message = `The line was drafted from ${own.map((name) => `“${name}”`).join(' and ')} and not corrected since.`;
  return { reason: 'own-draft', message };
}

function count(recordings: number): string {
  return recordings === 1 ? 'a recording' : `${recordings} recordings`;
}

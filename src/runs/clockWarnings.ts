import type { AssessedFigures, FiguresRecording } from './AssessedFigures';
import type { Run } from './summaryRuns';
import type { SummaryWarning } from './TestSummary';

/** What the runs' own recordings say of each other's clocks, and recordings that stand in the test twice. */
export function clockWarnings(runs: readonly Run[]): SummaryWarning[] {
  const warnings: SummaryWarning[] = [];
  const first = new Map<string, string>();
  for (const { name: run, members } of runs) {
    for (const { assessment, recording, receiver } of members) {
      for (const { reason, message } of warningsOf(assessment, recording)) {
        warnings.push({ reason: reason as SummaryWarning['reason'], receiver, run, message });
      }
      const { hash, fixes }: FiguresRecording = assessment.recordings.find(({ name }) => name === recording)!;
      const here = `“${recording}” in run “${run}”`;
      const same = first.get(hash);
      if (same === undefined) first.set(hash, here);
      else if (fixes > 1) {
        const message = `${here} has the same fixes as ${same}: one file given twice?`;
        warnings.push({ reason: 'same-recording', receiver, run, message });
      }
    }
  }
  return warnings;
}

function warningsOf({ warnings }: AssessedFigures, recording: string) {
  return warnings.filter((one) => one.recording === recording);
}

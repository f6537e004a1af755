import { group } from 'd3-array';
import type { AssessedFigures, FiguresRecording, FiguresWarning } from './AssessedFigures';
import type { Run } from './summaryRuns';
import type { SummaryWarning } from './TestSummary';

/** What the runs' own recordings say of each other's clocks, and recordings that stand in the test twice. */
export function clockWarnings(runs: readonly Run[]): SummaryWarning[] {
  const warnings: SummaryWarning[] = [];
  const first = new Map<string, string>();
  let told: AboutRecordings | undefined;
  for (const { name: run, members } of runs) {
    for (const { assessment, recording, receiver } of members) {
      // runs of one assessment follow each other
      if (told?.assessment !== assessment) told = aboutRecordings(assessment);
      for (const { reason, message } of told.warnings.get(recording) ?? []) {
        warnings.push({ reason: reason as SummaryWarning['reason'], receiver, run, message });
      }
      const { hash, fixes } = told.recordings.get(recording)!;
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

/** What an assessment says of its recordings, by name. */
interface AboutRecordings {
  readonly assessment: AssessedFigures;
  readonly recordings: ReadonlyMap<string, FiguresRecording>;
  readonly warnings: ReadonlyMap<string | null, readonly FiguresWarning[]>;
}

function aboutRecordings(assessment: AssessedFigures): AboutRecordings {
  return {
    assessment,
    recordings: new Map(assessment.recordings.map((one) => [one.name, one])),
    warnings: group(assessment.warnings, ({ recording }) => recording),
  };
}

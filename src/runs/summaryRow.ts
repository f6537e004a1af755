import { studentInterval, studentQuantile } from '../statistics';
import type { Run } from './summaryRuns';
import type { SummaryRow } from './TestSummary';

/** One receiver on one section over the runs. */
export function summaryRow(runs: readonly Run[], receiver: string, section: string | null): SummaryRow {
  const found = runs.map(({ members }) => {
    const member = members.find((one) => one.receiver === receiver);
    return member?.assessment.rows.find((row) => row.recording === member.recording && row.section === section);
  });
  const byRun = found.map((row) => row?.meanAbsolute ?? null);
  const spread = studentInterval(byRun.filter((value) => value !== null));
  const within = found.flatMap((row) =>
    row?.interval95 && row.blocks ? [standardErrorOf(row.meanAbsolute!, row.interval95[1], row.blocks)] : [],
  );
  const biases = found.flatMap((row) => row?.bias ?? []);
  const coverages = found.flatMap((row) => (row ? [row.coverage] : []));
  const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value / values.length, 0);
  return {
    receiver,
    section,
    runs: byRun.filter((value) => value !== null).length,
    meanAbsolute: spread?.mean ?? null,
    interval95: spread?.interval95 ? [Math.max(0, spread.interval95[0]), spread.interval95[1]] : null,
    betweenRunSd: spread?.sd ?? null,
    withinRunSd: within.length > 0 ? Math.sqrt(meanOf(within.map((error) => error * error))) : null,
    bias: biases.length > 0 ? meanOf(biases) : null,
    coverage: coverages.length > 0 ? meanOf(coverages) : 0,
    byRun,
  };
}

/** From the upper half of an interval: the lower one may have been cut off at 0. */
function standardErrorOf(mean: number, high: number, blocks: number): number {
  return (high - mean) / studentQuantile(0.95, blocks - 1);
}

import { overRuns } from './overRuns';
import type { Run } from './summaryRuns';
import type { PlacementEffect } from './TestSummary';

/** Mean distance at one place minus that at another, within each receiver that was worn at both, over the receivers. */
export function placementEffects(runs: readonly Run[]): PlacementEffect[] {
  const figures = runs.flatMap(({ members }) =>
    members.flatMap(({ assessment, recording, receiver, placement }) => {
      const row = assessment.rows.find((one) => one.recording === recording && one.section === null);
      return placement === null || row?.meanAbsolute == null ? [] : [{ receiver, placement, value: row.meanAbsolute }];
    }),
  );
  const places = [...new Set(figures.map(({ placement }) => placement))];
  const receivers = [...new Set(figures.map(({ receiver }) => receiver))];
  return places.flatMap((first, i) =>
    places.slice(i + 1).flatMap((second): PlacementEffect[] => {
      const at = (receiver: string, placement: string) =>
        overRuns(
          figures.filter((one) => one.receiver === receiver && one.placement === placement).map(({ value }) => value),
        )?.mean;
      const differences = receivers.flatMap((receiver) => {
        const [a, b] = [at(receiver, first), at(receiver, second)];
        return a === undefined || b === undefined ? [] : [a - b];
      });
      const spread = overRuns(differences);
      if (!spread) return [];
      return [{ first, second, receivers: differences.length, difference: spread.mean, interval95: spread.interval95 }];
    }),
  );
}

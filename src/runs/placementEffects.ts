import { crossoverEffect } from '../statistics';
import type { Run } from './summaryRuns';
import type { PlacementEffect } from './TestSummary';

/**
 * What each place changes against each other one on the whole route, free of what receivers and runs change. Where the
 * design cannot tell a place from a receiver or from a run (never swapped, or all swapped together) there is no effect to
 * report.
 */
export function placementEffects(runs: readonly Run[]): PlacementEffect[] {
  const figures = runs.flatMap(({ name, members }) =>
    members.flatMap(({ told, recording, receiver, placement }) => {
      const row = told.get(null)?.rows.get(recording);
      return placement === null || row?.meanAbsolute == null
        ? []
        : [{ subject: receiver, period: name, placement, value: row.meanAbsolute }];
    }),
  );
  const places = [...new Set(figures.map(({ placement }) => placement))];
  return places.flatMap((first, i) =>
    places.slice(i + 1).flatMap((second) => {
      const both = figures.filter(({ placement }) => placement === first || placement === second);
      const effect = crossoverEffect(both.map((figure) => ({ ...figure, treated: figure.placement === first })));
      if (!effect) return [];
      const { subjects: receivers, difference, interval95 } = effect;
      return [{ first, second, receivers, difference, interval95 }];
    }),
  );
}

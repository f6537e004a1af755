import { studentQuantile } from '../statistics';
import type { Run } from './summaryRuns';
import type { PlacementEffect } from './TestSummary';

interface Figure {
  readonly run: string;
  readonly receiver: string;
  readonly placement: string;
  readonly value: number;
}

/**
 * What each place changes against each other one, free of what receivers and runs change: a crossover design fitted by
 * least squares with one term a receiver, one a run and one for the place.
 *
 * Where the design cannot tell a place from a receiver or from a run (never swapped, or all swapped together) there is no
 * effect to report.
 *
 * @see Frisch and Waugh, Partial time regressions, Econometrica 1 (1933): regression on what the other terms leave over
 */
export function placementEffects(runs: readonly Run[]): PlacementEffect[] {
  const figures = runs.flatMap(({ name, members }) =>
    members.flatMap(({ assessment, recording, receiver, placement }): Figure[] => {
      const row = assessment.rows.find((one) => one.recording === recording && one.section === null);
      return placement === null || row?.meanAbsolute == null
        ? []
        : [{ run: name, receiver, placement, value: row.meanAbsolute }];
    }),
  );
  const places = [...new Set(figures.map(({ placement }) => placement))];
  return places.flatMap((first, i) =>
    places.slice(i + 1).flatMap((second) => {
      const both = figures.filter(({ placement }) => placement === first || placement === second);
      const effect = effectOf(both, first);
      return effect ? [{ first, second, ...effect }] : [];
    }),
  );
}

function effectOf(
  figures: readonly Figure[],
  first: string,
): { receivers: number; difference: number; interval95: PlacementEffect['interval95'] } | undefined {
  const place = freed(figures, ({ placement }) => (placement === first ? 1 : 0));
  const value = freed(figures, (figure) => figure.value);
  const own = place.reduce((sum, z) => sum + z * z, 0);
  // 0 but for rounding: receivers and runs say all that the place says
  if (!(own > 1e-6)) return undefined;
  const difference = place.reduce((sum, z, i) => sum + z * value[i], 0) / own;
  const rest = value.reduce((sum, y, i) => sum + (y - difference * place[i]) ** 2, 0);
  const degrees = figures.length - termsOf(figures) - 1;
  const half = degrees > 0 ? studentQuantile(0.95, degrees) * Math.sqrt(rest / degrees / own) : 0;
  const receivers = new Set(figures.filter((_, i) => Math.abs(place[i]) > 1e-6).map(({ receiver }) => receiver));
  return {
    receivers: receivers.size,
    difference,
    interval95: degrees > 0 ? [difference - half, difference + half] : null,
  };
}

/** A column without what receivers and runs explain of it: the means of both taken away in turn until none is left. */
function freed(figures: readonly Figure[], figureOf: (figure: Figure) => number): number[] {
  let column = figures.map(figureOf);
  for (let round = 0; round < 1000; round++) {
    let moved = 0;
    for (const key of ['receiver', 'run'] as const) {
      const groups = new Map<string, { sum: number; count: number }>();
      figures.forEach((figure, i) => {
        const group = groups.get(figure[key]) ?? { sum: 0, count: 0 };
        groups.set(figure[key], { sum: group.sum + column[i], count: group.count + 1 });
      });
      column = column.map((value, i) => {
        const { sum, count } = groups.get(figures[i][key])!;
        moved = Math.max(moved, Math.abs(sum / count));
        return value - sum / count;
      });
    }
    if (moved < 1e-12) break;
  }
  return column;
}

/** Independent terms for receivers and runs: as many as there are, less one for each group that no recording connects. */
function termsOf(figures: readonly Figure[]): number {
  const nodes = new Map<string, string>();
  const rootOf = (node: string): string => {
    const parent = nodes.get(node) ?? node;
    return parent === node ? node : rootOf(parent);
  };
  for (const { receiver, run } of figures) {
    const [a, b] = [`receiver ${receiver}`, `run ${run}`];
    nodes.set(a, nodes.get(a) ?? a);
    nodes.set(b, nodes.get(b) ?? b);
    nodes.set(rootOf(a), rootOf(b));
  }
  const groups = new Set([...nodes.keys()].map(rootOf));
  return nodes.size - groups.size;
}

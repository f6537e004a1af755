import {
  type BinRange,
  type ComparedFigures,
  foretoldOf,
  judgePairs,
  LEAST_SAMPLES,
  MORE_AWAY,
  RunScatter,
  wideningOf,
} from '../assess';
import { differenceLimits, differencePValue, studentQuantile } from '../statistics';
import type { SecondColumns } from './SecondColumns';
import type { TimedPair } from './TimedAssessment';

const DIRECTIONS = 8;

/** One of a run, with its errors in bins that suit every one of the run. */
export interface Compared {
  readonly name: string;
  readonly receiver: string;
  readonly columns: SecondColumns;
  /** Share of a stretch without a fix. */
  readonly missing: (section: string | null) => number;
}

/** A stretch in bins of the pairs. */
export interface PairStretch {
  readonly section: string | null;
  readonly range: BinRange;
}

export const PAIR_RULE = `Two are compared by their mean horizontal errors in the bins of time that both have. No verdict where the one that would gain by it was without a fix for ${100 * MORE_AWAY} % of the time more than the other, nor where both lie within the truth’s own uncertainty on average.`;

/** Verdicts on every two of a run, by stretch. */
export function timedPairs(
  members: readonly Compared[],
  stretches: readonly PairStretch[],
  parts: readonly BinRange[],
  doubt: Float64Array,
  { equivalence, leverArm, baseline }: { equivalence: number; leverArm: number; baseline: string | undefined },
): TimedPair[] {
  if (members.length < 2) return [];
  const distances = members.map(({ columns }) => columns.horizontal);
  const scatter = new RunScatter(new Float64Array(doubt.length).fill(1), distances, parts, 'relative');
  // what moves each distance by no more than half the lever arm makes no floor above that
  const stated = doubt.some((value) => 2 * value > leverArm);
  // by direction and receiver: how far off each would lie, were the truth moved by its own uncertainty
  const movedBy = (k: number) => {
    const [sin, cos] = [Math.sin((2 * Math.PI * k) / DIRECTIONS), Math.cos((2 * Math.PI * k) / DIRECTIONS)];
    return members.map(({ columns: { east, north } }) => {
      const distances = new Float64Array(doubt.length);
      for (let bin = 0; bin < distances.length; bin++) {
        distances[bin] = Math.sqrt((east[bin] - doubt[bin] * sin) ** 2 + (north[bin] - doubt[bin] * cos) ** 2);
      }
      return distances;
    });
  };
  const moved = Array.from({ length: stated ? DIRECTIONS : 0 }, (_, k) => movedBy(k));
  const still = stated
    ? members.map(({ columns: { east, north } }) => east.map((value, bin) => Math.hypot(value, north[bin])))
    : [];
  return stretches.flatMap(({ section, range }) => {
    let known = 0;
    let coarsest = 0;
    for (let bin = range.first; bin < range.end; bin++) {
      coarsest = Math.max(coarsest, doubt[bin]);
      if (distances.some((column) => !Number.isNaN(column[bin]))) known++;
    }
    const comparisons = members.flatMap((_, i) =>
      members.slice(i + 1).flatMap((_, offset): ComparedFigures[] => {
        const j = i + 1 + offset;
        const [first, second] = [members[i], members[j]];
        if (baseline !== undefined && first.receiver !== baseline && second.receiver !== baseline) return [];
        let common = 0;
        for (let bin = range.first; bin < range.end; bin++) {
          if (!Number.isNaN(distances[i][bin] + distances[j][bin])) common++;
        }
        const difference = common > 0 ? differenceIn(distances, i, j, range) / common : null;
        const unmoved = common > 0 && stated ? differenceIn(still, i, j, range) / common : 0;
        const shifts = common > 0 ? moved.map((columns) => differenceIn(columns, i, j, range) / common) : [];
        const chance = scatter.pair(i, j, range);
        const told = chance && chance.samples >= LEAST_SAMPLES ? chance : undefined;
        const limits = (within: number) =>
          told
            ? differenceLimits(told, studentQuantile(within, told.degrees) * wideningOf.distance(told.samples))
            : null;
        return [
          {
            first: first.name,
            second: second.name,
            section,
            difference,
            interval95: limits(0.95),
            interval90: limits(0.9),
            commonShare: known > 0 ? common / known : 0,
            floor: Math.max(leverArm, ...shifts.map((shift) => Math.abs(shift - unmoved))),
            pValue: told ? differencePValue(told, told.degrees, wideningOf.distance(told.samples)) : null,
            effectiveSamples: chance ? Math.min(common, chance.samples) : null,
            foretold: told ? foretoldOf(told) : null,
          },
        ];
      }),
    );
    return judgePairs(comparisons, {
      equivalence,
      cap: ({ first, second, difference, foretold }, candidate) => {
        if (Math.max(foretold!.first, foretold!.second) < coarsest) {
          const message = `Both lie within the truth’s own uncertainty of ${coarsest.toFixed(1)} m.`;
          return { reason: 'below-floor', message };
        }
        const [a, b] = [first, second].map((name) => members.find((member) => member.name === name)!);
        const more = a.missing(section) - b.missing(section);
        if (Math.abs(more) <= MORE_AWAY) return undefined;
        const absent = more > 0 ? a : b;
        if (candidate === 'closer' && absent !== (difference! < 0 ? a : b)) return undefined;
        return { reason: 'outages', message: `“${absent.name}” was without a fix for more of it.` };
      },
    });
  });
}

/** Sum over the bins of a stretch that both have of the first column less the second. */
function differenceIn(columns: readonly Float64Array[], i: number, j: number, { first, end }: BinRange): number {
  const [a, b] = [columns[i], columns[j]];
  let sum = 0;
  for (let bin = first; bin < end; bin++) {
    const apart = a[bin] - b[bin];
    if (!Number.isNaN(apart)) sum += apart;
  }
  return sum;
}

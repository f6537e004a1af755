import type { LatticeStates, Pin } from './LatticeStates';
import type { PathShares } from './pathShares';
import type { StepWeights } from './StepWeights';

/** How far off a skip may end from where the pass that it leads to is at the same place, metres along the route. */
const OFF = 40;

/** Beside a skip they may lie apart for so many metres: where it is was told by fixes that err. */
const WITHIN = 90;

/** Two passes so close to each other, metres, are one line. */
const SAME = 5;

/** Less of one line than so many metres is a crossing. */
const CROSSING = 60;

/**
 * Lowers how sure a path is around a skip for as long as the pass that was left and the one that was come to lie on one line:
 * nothing shows which lap it was that nobody rode, or which was ridden again, and each is as likely.
 *
 * @param bin - The bin of each knot.
 * @param skips - 1 at each knot before which a stretch was left out or begins anew.
 * @param shares - Read and written: of `n` laps of which one may be missing the first that was ridden is sure by 1 − 1/n.
 * @remarks Skips by as many laps as one before on the same line have been doubted with it.
 */
export function doubtLaps(
  { bins, knots }: LatticeStates,
  steps: StepWeights,
  pins: readonly Pin[],
  bin: Int32Array,
  skips: Uint8Array,
  { confidence, other }: PathShares,
): void {
  const pinned = new Set(pins.map(({ fix }) => fix));
  const off = Math.round(OFF / bins.spacing);
  const within = WITHIN / bins.spacing;
  const apart = (a: number, b: number) => bins.square(b, bins.x[a], bins.y[a], bins.z[a]);
  /** Whether a knot lies close to one beside a skip, ahead or back from it, with no skip between it and the one before. */
  const isNear = (k: number, begin: number) =>
    k >= 0 &&
    k < bin.length &&
    Math.abs(bin[k] - bin[begin]) <= within &&
    (k === begin || skips[k < begin ? k + 1 : k] === 0);
  /** By how many bins, about so many, the two passes are one line at a knot close to a skip; 0 where they are not. */
  const shiftNear = (knot: number, about: number) => {
    for (const way of [-1, 1]) {
      const begin = way < 0 ? knot - 1 : knot;
      for (let k = begin; isNear(k, begin); k += way) {
        let shift = 0;
        let least = SAME ** 2;
        for (let one = about - off; one <= about + off; one++) {
          const square = apart(bin[k], bin[k] - way * one);
          if (!(square <= least)) continue;
          least = square;
          shift = one;
        }
        if (shift !== 0) return shift;
      }
    }
    return 0;
  };
  /** The first knot from one on, ahead or back, that does not lie on a pass so many bins further as well: once some do. */
  const firstOff = (begin: number, way: number, by: number) => {
    let k = begin;
    while (isNear(k, begin) && !onBoth(k, by)) k += way;
    const some = k;
    while (k >= 0 && k < bin.length && onBoth(k, by)) k += way;
    return k === some ? begin : k;
  };
  // bins of two passes needn't lie side by side
  const onBoth = (k: number, by: number) => {
    if (pinned.has(knots[k])) return false;
    for (const beside of [0, -1, 1]) if (apart(bin[k], bin[k] + by + beside) <= SAME ** 2) return true;
    return false;
  };
  /** The last knot doubted with a skip by so many bins. */
  const doubted = new Map<number, number>();
  for (let knot = 1; knot < bin.length; knot++) {
    if (skips[knot] === 0) continue;
    const about = bin[knot] - bin[knot - 1] - Math.round(steps.expected(knot) / bins.spacing);
    const shift = shiftNear(knot, about);
    if (Math.abs(shift) <= off || (doubted.get(shift) ?? 0) > knot) continue;
    const from = firstOff(knot - 1, -1, shift) + 1;
    const to = firstOff(knot, 1, -shift);
    doubted.set(shift, to);
    /** Bins ridden from one knot to the next. */
    const ridden = (k: number) => (skips[k] === 1 ? 0 : Math.abs(bin[k] - bin[k - 1]));
    let length = 0;
    for (let k = from + 1; k < to; k++) length += ridden(k);
    if (length * bins.spacing <= CROSSING) continue;
    const laps = Math.max(Math.round(length / Math.abs(shift)), 1);
    let along = 0;
    for (let k = from; k < to; k++) {
      if (k > from) along += ridden(k);
      const before = Math.min(Math.floor((laps * along) / length) + 1, laps) / (laps + 1);
      const share = k < knot ? 1 - before : before;
      if (share >= confidence[k]) continue;
      confidence[k] = share;
      other[k] = bin[k] + (k < knot ? shift : -shift);
    }
  }
}

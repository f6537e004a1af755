import type { Bins } from './Bins';
import type { FixTrack } from './FixTrack';

/** How one step from knot to knot is weighed. */
export interface StepWeights {
  /** The least number of bins moved, negative when backwards. */
  readonly lowest: number;
  /** Weight of each number of bins moved, from the lowest up. */
  readonly weights: Float64Array;
  /** One over four times the variance of a displacement, per axis: a Student's t with 4 degrees of freedom. */
  readonly spread: number;
}

/** Slower than this, in metres a second, counts as standing when the pace is asked for. */
const STANDING = 0.5;

/** Steps to either side that say what the pace is. */
const NEIGHBOURS = 15;

/** Displacements wander from what the route says by this many metres in a second, and with the root of time. */
const WANDER = 2.5;

/** Seconds in which the error of a receiver is taken to forget itself. */
const CORRELATION = 20;

/** An interruption may hide this many seconds, even where the clock shows none: it may have stood still. */
const BREAK = 60;

/** A step counts in full against the pace from this many seconds on: before, the displacement says more. */
const PACE_COUNTS = 30;

/** No one is slower to be believed than this, metres a second. */
const FASTEST = 8;

/** Steps back of more than this, in metres, are jumps. */
const BACKWARDS = 300;

/** Price of a metre back along the route. */
const BACK_PRICE = 0.1;

/**
 * The weights of the step into each knot: the pace of the steps around it, the time it took, a price on going back.
 */
export function stepWeights(
  track: FixTrack,
  knots: Int32Array,
  { spacing, count }: Pick<Bins, 'spacing' | 'count'>,
): (knot: number, sigma: number) => StepWeights {
  const elapsed = new Float64Array(knots.length);
  const speed = new Float64Array(knots.length).fill(Number.NaN);
  const broken = new Uint8Array(knots.length);
  for (let knot = 1; knot < knots.length; knot++) {
    elapsed[knot] = Math.max(track.clock[knots[knot]] - track.clock[knots[knot - 1]], 1);
    const moved = track.moved(knots[knot - 1], knots[knot]);
    speed[knot] = moved / elapsed[knot];
    if (moved > FASTEST * elapsed[knot] + 10) broken[knot] = 1;
    for (let i = knots[knot - 1] + 1; i <= knots[knot]; i++) if (track.gapBefore[i] === 1) broken[knot] = 1;
  }
  const overall = median(speed.filter((value) => value > STANDING));
  return (knot, sigma) => {
    const seconds = elapsed[knot];
    let pace = overall;
    if (seconds > PACE_COUNTS / 4) {
      const around: number[] = [];
      for (let k = Math.max(knot - NEIGHBOURS, 1); k <= Math.min(knot + NEIGHBOURS, knots.length - 1); k++) {
        if (k !== knot && speed[k] > STANDING && elapsed[k] <= 3 * PACE_COUNTS) around.push(speed[k]);
      }
      if (around.length > 2) pace = median(Float64Array.from(around));
    }
    const expected = pace * seconds;
    // whatever the clock says, a body that is elsewhere has moved
    const seen = 1.5 * speed[knot] * seconds + 10;
    const lowest = -Math.min(Math.ceil(Math.min(1.5 * expected + seen, BACKWARDS) / spacing), count);
    const highest = Math.min(Math.ceil((Math.max(2.5 * pace, FASTEST) * seconds + seen) / spacing), count);
    const counts = Math.min(seconds / PACE_COUNTS, 1) / (0.5 * expected + 10);
    const weights = new Float64Array(highest - lowest + 1);
    for (let k = 0; k < weights.length; k++) {
      const moved = (lowest + k) * spacing;
      weights[k] = Math.exp(-counts * Math.abs(moved - expected) - (moved < 0 ? -BACK_PRICE * moved : 0));
    }
    const unseen = broken[knot] === 1 ? Math.max(seconds, BREAK) : seconds;
    const variance =
      WANDER * WANDER * unseen + 2 * sigma * sigma * (1 - Math.exp(-unseen / CORRELATION)) + (spacing * spacing) / 6;
    return { lowest, weights, spread: 1 / (4 * variance) };
  };
}

function median(values: Float64Array): number {
  if (values.length === 0) return 0;
  return values.sort()[values.length >> 1];
}

import { earthCentred } from '../geodesy';
import type { FixTrack } from './FixTrack';
import type { LatticeStates } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/** A fix that lies further from the one pass than from the other by less, metres and standard deviations, may be on both. */
const ONE = 10;
const ONE_SIGMAS = 2;

/** No further than so many metres from the skip. */
const FURTHEST = 60;

/** The place beside is looked for within so many metres of where the skip says it is: its ends err along the route. */
const AROUND = 30;

/** Where between them a skip was can't be told: how sure a fix there may be at most. */
const UNSURE = 0.85;

/**
 * Lowers the confidence of fixes around a skip for as long as they fit the pass that was left and the one that was come to
 * alike: the skip may as well have been there.
 *
 * @param bin - The bin of each knot.
 * @param skips - 1 at each knot before which a stretch was left out or begins anew.
 * @param at - Metres along the route of each fix.
 */
export function doubtSkips(
  { count, clock, lon, lat }: FixTrack,
  states: LatticeStates,
  steps: StepWeights,
  sigma: Float64Array,
  bin: Int32Array,
  skips: Uint8Array,
  at: Float64Array,
  confidence: Float32Array,
): void {
  const { bins, knots } = states;
  const last = bins.count - 1;
  const binOf = (place: number) => Math.min(Math.max(Math.round(place / bins.spacing), 0), last);
  for (let knot = 1; knot < knots.length; knot++) {
    if (skips[knot] === 0) continue;
    // the first fix after the skip, and how much further on the same place lies on the pass that was come to
    const length = (bin[knot] - bin[knot - 1]) * bins.spacing;
    let landed = knots[knot];
    const near = (fix: number) => Math.abs(at[fix] - bin[knot] * bins.spacing);
    while (landed - 1 > knots[knot - 1] && near(landed - 1) < Math.abs(length) / 2) landed--;
    const onwards = at[landed] - at[landed - 1] - pace(steps, states, knot) * (clock[landed] - clock[landed - 1]);
    for (const way of [-1, 1]) {
      const first = way < 0 ? landed - 1 : landed;
      for (let fix = first; fix >= 0 && fix < count; fix += way) {
        const [x, y, z] = earthCentred(lon[fix], lat[fix]);
        const away = (place: number) => {
          let least = Infinity;
          const end = binOf(place + AROUND);
          for (let one = binOf(place - AROUND); one <= end; one++) least = Math.min(least, bins.square(one, x, y, z));
          return Math.sqrt(least);
        };
        const further = away(at[fix] - way * onwards) - away(at[fix]);
        if (Math.abs(at[fix] - at[first]) > FURTHEST) break;
        if (further > Math.max(ONE, ONE_SIGMAS * sigma[binOf(at[fix])])) break;
        confidence[fix] = Math.min(confidence[fix], UNSURE);
      }
    }
  }
}

/** Metres a second to be expected of the step into a knot. */
function pace(steps: StepWeights, { clock }: LatticeStates, knot: number): number {
  const seconds = clock[knot] - clock[knot - 1];
  return seconds > 0 ? steps.expected(knot) / Math.max(seconds, 1) : 0;
}

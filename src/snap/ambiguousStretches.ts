import type { AmbiguousStretch, Snapped } from '../model';

/** A fix is sure of its part of the route when nine in ten paths agree. */
const SURE = 0.9;

/**
 * Stretches of fixes whose part of the route can't be told, each with the part that it might be as well.
 *
 * @param leaps - 1 at each knot where only the feet leap along the route.
 */
export function ambiguousStretches(
  knots: Int32Array,
  bin: Int32Array,
  other: Int32Array,
  leaps: Uint8Array,
  spacing: number,
  { alongTrack, state, confidence }: Pick<Snapped, 'alongTrack' | 'state' | 'confidence'>,
): AmbiguousStretch[] {
  const stretches: AmbiguousStretch[] = [];
  const n = confidence.length;
  let knot = 0;
  for (let firstFix = 0; firstFix < n; firstFix++) {
    if (state[firstFix] !== 'on' || confidence[firstFix] >= SURE) continue;
    let end = firstFix;
    let lastFix = firstFix;
    for (; end + 1 < n && (state[end + 1] !== 'on' || confidence[end + 1] < SURE); end++)
      if (state[end + 1] === 'on') lastFix = end + 1;
    // how much further along the other part lies, at the least sure of its knots
    while (knot + 1 < knots.length && knots[knot + 1] <= firstFix) knot++;
    let shift = 0;
    let leap = false;
    let least = Infinity;
    for (let k = knot; k < knots.length && knots[k] <= lastFix; k++) {
      if (other[k] < 0 || state[knots[k]] !== 'on' || !(confidence[knots[k]] < least)) continue;
      least = confidence[knots[k]];
      shift = (other[k] - bin[k]) * spacing;
      leap = leaps[k] === 1;
    }
    const where = `${Math.round(Math.abs(shift))} m further ${shift < 0 ? 'back' : 'on'}`;
    let from = alongTrack[firstFix];
    let to = from;
    for (let i = firstFix + 1; i <= lastFix; i++) {
      if (alongTrack[i] < from) from = alongTrack[i];
      if (alongTrack[i] > to) to = alongTrack[i];
    }
    stretches.push({
      from,
      to,
      firstFix,
      lastFix,
      reason: leap ? 'leap-along' : 'repeated-pass',
      message: leap
        ? `The fixes leap along the route and back: the receiver erred, or the body hurried and waited, and was ${where}.`
        : `The route passes here more than once, and nothing tells this pass from the one ${where}.`,
      shift,
    });
    firstFix = end;
  }
  return stretches;
}

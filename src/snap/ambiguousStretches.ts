import type { AmbiguousStretch, FixState } from '../model';

/** A fix is sure of its part of the route when nine in ten paths agree. */
const SURE = 0.9;

/** Stretches of fixes whose part of the route can't be told, each with the part that it might be as well. */
export function ambiguousStretches(
  knots: Int32Array,
  bin: Int32Array,
  other: Int32Array,
  spacing: number,
  state: readonly FixState[],
  confidence: Float32Array,
): AmbiguousStretch[] {
  const stretches: AmbiguousStretch[] = [];
  const n = confidence.length;
  let knot = 0;
  for (let from = 0; from < n; from++) {
    if (state[from] !== 'on' || confidence[from] >= SURE) continue;
    let to = from;
    let last = from;
    for (; to + 1 < n && (state[to + 1] !== 'on' || confidence[to + 1] < SURE); to++)
      if (state[to + 1] === 'on') last = to + 1;
    // how much further along the other part lies, at the least sure of its knots
    while (knot + 1 < knots.length && knots[knot + 1] <= from) knot++;
    let shift = 0;
    let least = Infinity;
    for (let k = knot; k < knots.length && knots[k] <= last; k++) {
      if (other[k] < 0 || state[knots[k]] !== 'on' || !(confidence[knots[k]] < least)) continue;
      least = confidence[knots[k]];
      shift = (other[k] - bin[k]) * spacing;
    }
    const where = `${Math.round(Math.abs(shift))} m further ${shift < 0 ? 'back' : 'on'}`;
    stretches.push({
      from,
      to: last,
      reason: `the route passes here more than once, and nothing tells this pass from the one ${where}`,
      shift,
    });
    from = to;
  }
  return stretches;
}

import type { Route } from '../route/Route';
import type { Bins } from './Bins';

/** Standard deviation of a fix in metres, per axis, before anything is known of the receiver. */
export const FIRST_SIGMA = 8;

/** No receiver is believed to be better, or lets the matching loosen further. */
const BEST = 3;
const WORST = 40;

/** With fewer knots than this a section says too little of itself and takes what the whole recording says. */
const ENOUGH = 8;

/** From the median of |x| to the standard deviation of a normal x. Newson & Krumm 2009, §4.1. */
const MEDIAN_TO_SIGMA = 1.4826;

/**
 * The standard deviation of a fix at each bin, estimated section by section from how far the matched fixes lie aside.
 *
 * @param bin - Where each knot was matched.
 * @param aside - Metres that it lies from the route there.
 */
export function sectionSigma(route: Route, bins: Bins, bin: Int32Array, aside: Float64Array): Float64Array {
  const overall = spread(Array.from(aside), FIRST_SIGMA);
  const sigma = new Float64Array(bins.count).fill(overall);
  for (const { from, to } of route.sections) {
    const first = Math.round(from / bins.spacing);
    const last = Math.round(to / bins.spacing);
    const here: number[] = [];
    bin.forEach((at, knot) => {
      if (at >= first && at <= last) here.push(aside[knot]);
    });
    sigma.fill(spread(here, overall), first, last + 1);
  }
  return sigma;
}

function spread(values: number[], otherwise: number): number {
  if (values.length < ENOUGH) return otherwise;
  values.sort((a, b) => a - b);
  return Math.min(Math.max(MEDIAN_TO_SIGMA * values[values.length >> 1], BEST), WORST);
}

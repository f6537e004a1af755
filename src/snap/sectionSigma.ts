import type { Route } from '../model';
import type { Bins } from './Bins';
import { upperMedian } from './upperMedian';

/** Standard deviation of a fix in metres, per axis, before anything is known of the receiver. */
export const FIRST_SIGMA = 8;

/** No receiver is believed to be better, or lets the matching loosen further. */
const BEST = 3;
const WORST = 40;

/** Knots this many to an error of its own: they lie 15 s apart at least, and errors persist for half a minute. */
const KNOTS_EACH = 4;

/** What was thought before weighs as much as so many errors: a few minutes say little. */
const PRIOR = 4;

/** From the median of |x| to the standard deviation of a normal x. Newson & Krumm 2009, §4.1. */
const MEDIAN_TO_SIGMA = 1.4826;

/**
 * Writes the standard deviation of a fix at each bin, estimated section by section from how far the matched fixes lie aside.
 *
 * @param bin - Where each knot was matched.
 * @param aside - Metres that it lies from the route there.
 * @param sigma - The answer; left as it was where there is nothing to estimate it from.
 */
export function sectionSigma(
  route: Route,
  bins: Bins,
  bin: Int32Array,
  aside: Float64Array,
  sigma: Float64Array,
): void {
  const overall = spread(aside.slice(), FIRST_SIGMA);
  sigma.fill(overall);
  const here = new Float64Array(aside.length);
  for (const { from, to } of route.sections) {
    const first = Math.round(from / bins.spacing);
    const last = Math.round(to / bins.spacing);
    let count = 0;
    for (let knot = 0; knot < bin.length; knot++)
      if (bin[knot] >= first && bin[knot] <= last) here[count++] = aside[knot];
    sigma.fill(spread(here.subarray(0, count), overall), first, last + 1);
  }
}

function spread(values: Float64Array, before: number): number {
  if (values.length === 0) return before;
  const here = Math.min(Math.max(MEDIAN_TO_SIGMA * upperMedian(values), BEST), WORST);
  const errors = values.length / KNOTS_EACH;
  return Math.sqrt((errors * here * here + PRIOR * before * before) / (errors + PRIOR));
}

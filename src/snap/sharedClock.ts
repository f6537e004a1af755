import { mean } from 'd3-array';
import { knownMedian } from '../model';

/** What one clock says: seconds that it is ahead, and the standard error of that; NaN where it says nothing. */
interface ToldClock {
  readonly offset: number;
  readonly standardError: number;
}

/**
 * Offsets that differ by no more than so many standard errors of their difference may be one and the same: 2.5 (Rousseeuw 1984),
 * and the standard errors of an hour fall short by up to 1.7 (test/snap/clockOffsets.test.ts).
 */
const ALIKE = 4;

/**
 * Which of several clocks are right, seconds: the mean of the majority that lie closest together, where these may be one by
 * their noise, else the median. Of two it is half way: nobody knows which is right.
 *
 * @see P. J. Rousseeuw, Least median of squares regression, J. Am. Stat. Assoc. 79 (1984), doi:10.1080/01621459.1984.10477105:
 * the shortest half
 */
export function sharedClock(clocks: readonly ToldClock[]): number {
  const known = clocks.filter(({ standardError }) => Number.isFinite(standardError));
  const sorted = (known.length > 0 ? known : [...clocks]).sort((a, b) => a.offset - b.offset);
  const middle = knownMedian(sorted.map(({ offset }) => offset));
  if (known.length < 3) return middle;
  const most = Math.floor(known.length / 2) + 1;
  const width = (first: number) => sorted[first + most - 1].offset - sorted[first].offset;
  let closest = 0;
  for (let first = 1; first + most <= sorted.length; first++) if (width(first) < width(closest)) closest = first;
  const [a, b] = [sorted[closest], sorted[closest + most - 1]];
  if (width(closest) > ALIKE * Math.hypot(a.standardError, b.standardError)) return middle;
  return mean(sorted.slice(closest, closest + most), ({ offset }) => offset)!;
}

import { mean, median } from 'd3-array';
import type { ClockOffset } from '../snap';
import type { AssessedRecording } from './Assessment';

/**
 * Offsets that differ by no more than so many standard errors of their difference may be one and the same: 2.5 (Rousseeuw 1984),
 * and the standard errors of an hour fall short by up to 1.7 (test/snap/clockOffsets.test.ts).
 */
const ALIKE = 4;

/**
 * Seconds by which each recording of a run is later than the others that agree: of the majority that lie closest together,
 * and those that may be one with them by their noise, the mean without its own. Where no majority agrees, later than the median
 * of all. Null with fewer than three, and where nothing can be said.
 *
 * A lag clear of the noise leaves those without one at nought. One within it can't be told from the others being early, and
 * pulls them back by as much as it counts as one of them: three receivers of σ 8 m on an hour's walk, one of them 2 s late, are
 * 2 s late and half a second early on the mean.
 *
 * @see P. J. Rousseeuw, Least median of squares regression, J. Am. Stat. Assoc. 79 (1984), doi:10.1080/01621459.1984.10477105:
 * the shortest half, and the mean of what lies within 2.5 deviations of it
 */
export function lagsOf(clocks: readonly ClockOffset[]): AssessedRecording['lag'][] {
  const known = clocks.filter(({ spread }) => Number.isFinite(spread));
  if (known.length < 3) return clocks.map(() => null);
  const agreed = agreeing(known);
  const middle = median(known, ({ offset }) => offset)!;
  return clocks.map((clock) => {
    if (!known.includes(clock)) return null;
    const others = agreed.filter((other) => other !== clock);
    const reference = mean(others, ({ offset }) => offset) ?? middle;
    return { median: clock.offset - reference, spread: clock.spread };
  });
}

/** The closest majority and those that may be one with it; none where it is itself no one. */
function agreeing(known: readonly ClockOffset[]): readonly ClockOffset[] {
  const sorted = [...known].sort((a, b) => a.offset - b.offset);
  const most = Math.floor(known.length / 2) + 1;
  const majorities = sorted.slice(most - 1).map((_, first) => sorted.slice(first, first + most));
  const width = (some: readonly ClockOffset[]) => some[some.length - 1].offset - some[0].offset;
  const core = majorities.reduce((a, b) => (width(b) < width(a) ? b : a));
  const alike = (seconds: number, ...errors: number[]) => seconds <= ALIKE * Math.hypot(...errors);
  if (!alike(width(core), core[0].standardError, core[core.length - 1].standardError)) return [];
  const centre = mean(core, ({ offset }) => offset)!;
  // the mean of so many errs by as much less
  const error = Math.hypot(...core.map(({ standardError }) => standardError)) / core.length;
  return sorted.filter((one) => core.includes(one) || alike(Math.abs(one.offset - centre), one.standardError, error));
}

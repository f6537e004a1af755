import { median } from 'd3-array';
import type { ClockOffset } from '../snap';
import type { AssessedRecording } from './Assessment';

/** Offsets that differ by no more than so many standard errors may be one and the same. */
const ALIKE = 4;

/**
 * Seconds by which each recording of a run is later than its others: than their mean where they may all be one, by their
 * noise, else than the median of all. Null with fewer than three, and where nothing can be said.
 *
 * Against the median of all a lag comes out short by what the noise of those without one spreads them: by a fifth with three
 * or four receivers of σ 8 m on an hour's walk and a lag of 2 s.
 */
export function lagsOf(clocks: readonly ClockOffset[]): AssessedRecording['lag'][] {
  const known = clocks.filter(({ spread }) => Number.isFinite(spread));
  if (known.length < 3) return clocks.map(() => null);
  const middle = median(known, ({ offset }) => offset)!;
  return clocks.map((clock) => {
    if (!known.includes(clock)) return null;
    const others = known.filter((other) => other !== clock).sort((a, b) => a.offset - b.offset);
    const [low, high] = [others[0], others[others.length - 1]];
    const alike = high.offset - low.offset <= ALIKE * Math.hypot(low.standardError, high.standardError);
    const mean = others.reduce((sum, { offset }) => sum + offset, 0) / others.length;
    return { median: clock.offset - (alike ? mean : middle), spread: clock.spread };
  });
}

import { showCount, showMetres } from './showFigures';
import type { ShownPair } from './shownPairs';

/** Of differences so many times apart only the least says anything. */
const FAR = 10;

/** What a test could have found on pairs, and how many runs more would decide those that stay undecided; empty where that can't be said. */
export function foundWords(pairs: readonly ShownPair[]): string[] {
  const byChance = pairs.filter((pair) => pair.detectable !== null && onlyChance(pair));
  const counts = byChance.flatMap(({ verdict, moreRuns }) => (verdict === 'undecided' && moreRuns ? moreRuns : []));
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  const more = least === most ? showCount(most, 'more run') : `${least} to ${most} more runs`;
  return [
    ...(byChance.length > 0 ? [`${span(byChance)} would be found four times in five`] : []),
    ...(counts.length > 0 ? [`${more} would decide what was seen`] : []),
  ];
}

/** "1.8 m", "1.8 to 7.0 m", "0.2 m at best". */
function span(pairs: readonly ShownPair[]): string {
  const found = pairs.map(({ detectable }) => detectable!);
  const [least, most] = [Math.min(...found), Math.max(...found)];
  if (most > FAR * least) return `${showMetres(least)} at best`;
  return showMetres(least) === showMetres(most)
    ? showMetres(least)
    : `${showMetres(least).replace(/\sm$/, '')} to ${showMetres(most)}`;
}

/** Whether nothing but chance keeps it from a verdict: what else does, no difference would be found in spite of. */
function onlyChance({ limits }: ShownPair): boolean {
  return limits.every(
    ({ reason }) => reason === 'includes-zero' || reason === 'many-pairs' || reason === 'below-floor',
  );
}

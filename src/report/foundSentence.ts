import type { ReportModel } from './reportModel';
import { showCount, showMetres } from './showFigures';
import { type ShownPair, shownPairs } from './shownPairs';

/** Of differences so many times apart only the least says anything. */
const FAR = 10;

/** What this test could have found, on the whole route and on its stretches, and what would decide what was seen; null where that can't be said. */
export function foundSentence(model: ReportModel): string | null {
  const pairs = shownPairs(model).filter((pair) => pair.detectable !== null && onlyChance(pair));
  const whole = pairs.filter(({ section }) => section === null);
  const parts = pairs.filter(({ section }) => section !== null);
  if (pairs.length === 0) return null;
  const runs = Math.max(0, ...pairs.map((pair) => pair.runs ?? 0));
  const begin = runs > 0 ? `With ${showCount(runs, 'run')}` : 'In one such run';
  const where = [
    ...(whole.length > 0 ? [`${span(whole)} would be found four times in five on the whole route`] : []),
    ...(parts.length > 0
      ? [`${span(parts)}${whole.length > 0 ? '' : ' would be found four times in five'} on single stretches`]
      : []),
  ];
  const more = whole.filter(({ verdict, moreRuns }) => verdict === 'undecided' && moreRuns !== null && moreRuns > 0);
  const counts = more.map(({ moreRuns }) => moreRuns!);
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  const deciding =
    more.length === 0
      ? ''
      : ` What was seen on the whole route, and is undecided, would be decided by ${
          least === most ? showCount(most, 'more run') : `${least} to ${most} more runs`
        }.`;
  return `${begin}, differences of ${where.join(', and ')}.${deciding}`;
}

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

import type { SummaryPair, TimedSummary } from '../runs';
import type { TimedAssessment, TimedPair } from '../truth';
import { showInterval, showList, showMetres } from './showFigures';

type Judged = Pick<
  SummaryPair & TimedPair,
  'first' | 'second' | 'section' | 'verdict' | 'closer' | 'difference' | 'interval95' | 'limits'
>;

/** What is sure by the clock in words, the surest to be read first; what is not, last. */
export function timedFindings(timed: readonly TimedAssessment[], summary: TimedSummary | null): string[] {
  const runs =
    summary && summary.runs.length > 1 ? [{ run: null, pairs: summary.pairs as readonly Judged[] }] : byRun(timed);
  const holds = summary && summary.runs.length > 1 ? `over ${summary.runs.length} runs` : 'in this run';
  const sure = runs.flatMap(({ run, pairs }) => {
    const where = run === null ? '' : `Run “${run}”: `;
    const closer = pairs
      .filter(({ verdict }) => verdict === 'closer')
      .map(
        (pair) =>
          `${where}“${pair.closer}” lay closer to the true place than “${pair.closer === pair.first ? pair.second : pair.first}”${on(pair)}, by ${showMetres(Math.abs(pair.difference!))} (${showInterval(sized(pair.interval95!))}), ${holds}.`,
      );
    const equal = pairs
      .filter(({ verdict }) => verdict === 'equivalent')
      .map(
        ({ first, second, ...pair }) =>
          `${where}“${first}” and “${second}” lay equally close to the true place${on(pair)}, ${holds}.`,
      );
    return [...closer, ...equal];
  });
  const open = runs.flatMap(({ run, pairs }) =>
    pairs
      .filter(({ section, verdict }) => section === null && verdict === 'undecided')
      .map(
        ({ first, second, limits }) =>
          `${run === null ? '' : `run “${run}”: `}“${first}” and “${second}” (${limits[0].message.replace(/\.$/, '')})`,
      ),
  );
  const compared = runs.some(({ pairs }) => pairs.length > 0);
  return [
    ...(sure.length > 0 || !compared
      ? sure
      : ['By the clock no two receivers were told apart: nothing is sure of which lay closer.']),
    ...(open.length > 0 ? [`Undecided of the whole: ${showList(open)}.`] : []),
  ];
}

/** The whole first: it is what is asked of most. */
function byRun(
  timed: readonly TimedAssessment[],
): { readonly run: string | null; readonly pairs: readonly Judged[] }[] {
  return timed
    .flatMap(({ recordings, pairs }) => {
      const runOf = new Map(recordings.map(({ name, run }) => [name, run]));
      const runs = [...new Set(pairs.map(({ first }) => runOf.get(first) ?? null))];
      return runs.map((run) => ({
        run: runs.length + timed.length > 2 ? run : null,
        pairs: pairs.filter(({ first }) => (runOf.get(first) ?? null) === run),
      }));
    })
    .map(({ run, pairs }) => ({
      run,
      pairs: [...pairs].sort((a, b) => Number(a.section !== null) - Number(b.section !== null)),
    }));
}

function on({ section }: { readonly section: string | null }): string {
  return section === null ? '' : ` on “${section}”`;
}

function sized([low, high]: readonly [number, number]): readonly [number, number] {
  return high < 0 || (low < 0 && -low > high) ? [-high, -low] : [low, high];
}

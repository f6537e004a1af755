import type { SummaryPair, TimedSummary } from '../runs';
import type { TimedAssessment, TimedPair } from '../truth';
import { showInterval, showList, showMetres } from './showFigures';

type Judged = Pick<
  SummaryPair & TimedPair,
  'first' | 'second' | 'section' | 'verdict' | 'closer' | 'difference' | 'interval95' | 'limits'
>;

/** What is sure by the clock in words, and what is not: of the whole, then of single sections. */
export function timedFindings(
  timed: readonly TimedAssessment[],
  summary: TimedSummary | null,
): { readonly whole: readonly string[]; readonly sections: readonly string[] } {
  const runs =
    summary && summary.runs.length > 1 ? [{ run: null, pairs: summary.pairs as readonly Judged[] }] : byRun(timed);
  const holds = summary && summary.runs.length > 1 ? `over ${summary.runs.length} runs` : 'in this run';
  const sureOf = (wanted: (pair: Judged) => boolean) =>
    runs.flatMap(({ run, pairs }) =>
      pairs.filter(wanted).flatMap((pair) => {
        const where = run === null ? '' : `Run “${run}”: `;
        const { first, second, verdict, closer, difference, interval95 } = pair;
        const on = pair.section === null ? '' : ` on “${pair.section}”`;
        if (verdict === 'closer') {
          const by = `${showMetres(Math.abs(difference!))} (${showInterval(sized(interval95!))})`;
          const other = closer === first ? second : first;
          return [`${where}“${closer}” lay closer to the true place than “${other}”${on}, by ${by}, ${holds}.`];
        }
        if (verdict !== 'equivalent') return [];
        return [`${where}“${first}” and “${second}” lay equally close to the true place${on}, ${holds}.`];
      }),
    );
  const sure = sureOf(({ section }) => section === null);
  const open = runs.flatMap(({ run, pairs }) =>
    pairs
      .filter(({ section, verdict }) => section === null && verdict === 'undecided')
      .map(({ first, second, limits }) => {
        const where = run === null ? '' : `run “${run}”: `;
        return `${where}“${first}” and “${second}” (${limits[0].message.replace(/\.$/, '')})`;
      }),
  );
  const nothing =
    sure.length === 0 && open.length > 0
      ? ['By the clock no two receivers were told apart on the whole: which lay closer is not known.']
      : [];
  return {
    whole: [...sure, ...nothing, ...(open.length > 0 ? [`Undecided of the whole: ${showList(open)}.`] : [])],
    sections: sureOf(({ section }) => section !== null),
  };
}

/** The pairs of each run; a run is named where there are several. */
function byRun(
  timed: readonly TimedAssessment[],
): { readonly run: string | null; readonly pairs: readonly Judged[] }[] {
  const several = new Set(timed.flatMap(({ recordings }) => recordings.map(({ run }) => run))).size + timed.length > 2;
  return timed.flatMap(({ recordings, pairs }) => {
    const runOf = new Map(recordings.map(({ name, run }) => [name, run]));
    const runs = [...new Set(pairs.map(({ first }) => runOf.get(first) ?? null))];
    return runs.map((run) => ({
      run: several ? run : null,
      pairs: pairs.filter(({ first }) => (runOf.get(first) ?? null) === run),
    }));
  });
}

function sized([low, high]: readonly [number, number]): readonly [number, number] {
  return high < 0 || (low < 0 && -low > high) ? [-high, -low] : [low, high];
}

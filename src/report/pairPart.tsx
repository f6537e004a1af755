import type { Interval, Verdict, VerdictLimit } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { showCount, showInterval, showList, showMetres, showNumber, showSigned } from './showFigures';

interface ShownPair {
  readonly title: string | null;
  readonly first: Receiver;
  readonly second: Receiver;
  readonly section: string | null;
  readonly difference: number | null;
  readonly interval95: Interval | null;
  readonly verdict: Verdict;
  readonly closer: Receiver | undefined;
  readonly limits: readonly VerdictLimit[];
  readonly more: string;
}

/** Every two receivers against each other: closer, equivalent or undecided, on the whole route and by stretch. */
export function pairPart(model: ReportModel): Content {
  const pairs = model.summary ? summedPairs(model) : runPairs(model);
  if (pairs.length === 0) return <p>There are no two recordings of one run to compare.</p>;
  const titles = [...new Set(pairs.map(({ title }) => title))];
  return (
    <>
      {titles.map((title) =>
        matrix(
          model,
          pairs.filter((pair) => pair.title === title),
          title,
        ),
      )}
      <p class="note">
        Each cell reads: the receiver of the row against that of the column; less is closer to the reference.
        “Undecided” is a result: these data do not show which is closer. “Equivalent” means that any difference surely
        lies within what was called equal beforehand.
      </p>
      {turnedRound(model)}
      <details>
        <summary>Pairs by stretch, with what held each verdict back</summary>
        <DataTable
          caption="Every pair on every stretch"
          columns={['Pair', 'stretch', 'difference', '95 % interval', 'verdict', 'more']}
          rows={pairs.map(
            ({ title, first, second, section, difference, interval95, verdict, closer, limits, more }) => ({
              heading: [receiverName(first), ' against ', receiverName(second)],
              cells: [
                [title === null ? null : `${title}, `, section ?? 'whole route'],
                showSigned(difference),
                showInterval(interval95),
                verdict === 'closer' ? [closer ? receiverName(closer) : null, ' closer'] : verdict,
                [...limits.map(({ message }) => message), more].filter(Boolean).join(' '),
              ],
            }),
          )}
        />
      </details>
    </>
  );
}

/**
 * Stretches on which two receivers are the other way round than on the whole route: the order on the whole route says
 * little there.
 */
function turnedRound({ summary }: ReportModel): Content {
  const pairs = new Map<string, string[]>();
  for (const { section, first, second } of summary?.flips ?? []) {
    const names = `${first} and ${second}`;
    pairs.set(names, [...(pairs.get(names) ?? []), section]);
  }
  if (pairs.size === 0) return null;
  return (
    <>
      <p>The other way round from the whole route, whether shown or not:</p>
      <ul>
        {[...pairs].map(([names, sections]) => (
          <li>
            {names} in {showList(sections)}
          </li>
        ))}
      </ul>
    </>
  );
}

function matrix({ receivers }: ReportModel, pairs: readonly ShownPair[], title: string | null): Content {
  const whole = pairs.filter(({ section }) => section === null);
  const shown = receivers.filter((r) => whole.some(({ first, second }) => first === r || second === r));
  if (shown.length === 0) return null;
  return (
    <DataTable
      caption={title === null ? 'Whole route, every two receivers' : `Whole route, every two receivers, ${title}`}
      columns={['Against', ...shown.map(receiverName)]}
      rows={shown.map((line) => ({
        heading: receiverName(line),
        cells: shown.map((column) => {
          if (line === column)
            return (
              <span role="img" aria-label="itself">
                ·
              </span>
            );
          const pair = whole.find(
            (p) => (p.first === line && p.second === column) || (p.first === column && p.second === line),
          );
          if (!pair) return <span class="under">never together</span>;
          const turned = pair.first !== line;
          const difference = pair.difference === null ? null : turned ? -pair.difference : pair.difference;
          const interval =
            pair.interval95 && (turned ? ([-pair.interval95[1], -pair.interval95[0]] as const) : pair.interval95);
          const word = pair.verdict === 'closer' ? (pair.closer === line ? 'closer' : 'further') : pair.verdict;
          return (
            <>
              <strong class={word === 'undecided' ? 'weak' : undefined}>{word}</strong>
              <span class="under">
                {showSigned(difference)} ({showInterval(interval)})
              </span>
            </>
          );
        }),
      }))}
    />
  );
}

function summedPairs({ summary, receivers }: ReportModel): ShownPair[] {
  const named = (label: string | null | undefined) => receivers.find((receiver) => receiver.label === label);
  return (summary?.pairs ?? []).flatMap((pair) => {
    const [first, second] = [named(pair.first), named(pair.second)];
    if (!first || !second) return [];
    const more = [
      `${showCount(pair.runs, 'run')}.`,
      pair.detectable === null
        ? ''
        : `A true difference of ${showMetres(pair.detectable)} would be found four times in five.`,
      pair.moreRuns === null || pair.moreRuns === 0
        ? ''
        : `${showCount(pair.moreRuns, 'more run')} would settle one as large as this.`,
    ];
    return [{ ...pair, title: null, first, second, closer: named(pair.closer), more: more.filter(Boolean).join(' ') }];
  });
}

function runPairs({ assessments, strands, runs }: ReportModel): ShownPair[] {
  return assessments.flatMap((assessment) =>
    assessment.pairs.flatMap((pair) => {
      const strand = (name: string | null | undefined) =>
        strands.find((s) => s.assessment === assessment && s.recording.name === name);
      const [first, second] = [strand(pair.first), strand(pair.second)];
      if (!first || !second) return [];
      const more = pair.correlation === null ? '' : `Their offsets correlate by ${showNumber(pair.correlation, 2)}.`;
      return [
        {
          ...pair,
          title: runs.length > 1 ? first.run : null,
          first: first.receiver,
          second: second.receiver,
          closer: strand(pair.closer)?.receiver,
          more,
        },
      ];
    }),
  );
}

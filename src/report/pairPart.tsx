import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { showCount, showInterval, showList, showMetres, showNumber, showSigned } from './showFigures';
import { type ShownPair, shownPairs } from './shownPairs';

/** Every two receivers against each other: closer, equivalent or undecided, on the whole route and by stretch. */
export function pairPart(model: ReportModel): Content {
  const pairs = shownPairs(model);
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
        lies within what was called equal beforehand (the whole 90 % interval does: two one-sided tests at 5 %).
      </p>
      {atLeastOne(model)}
      {turnedRound(model)}
      <details>
        <summary>Pairs by stretch, with what held each verdict back</summary>
        <DataTable
          caption="Every pair on every stretch"
          columns={[
            'Pair',
            'stretch',
            'difference',
            '95 % interval',
            '90 % interval',
            'verdict',
            'would be found',
            'more',
          ]}
          rows={pairs.map(({ title, first, second, section, difference, verdict, closer, ...pair }) => ({
            heading: [receiverName(first), ' against ', receiverName(second)],
            cells: [
              [title === null ? null : `${title}, `, section ?? 'whole route'],
              showSigned(difference),
              showInterval(pair.interval95),
              showInterval(pair.interval90),
              verdict === 'closer' ? [closer ? receiverName(closer) : null, ' closer'] : verdict,
              showMetres(pair.detectable),
              more(pair),
            ],
          }))}
        />
      </details>
    </>
  );
}

/** How likely it is that all lie equally close, where so many are compared that it is a question of its own. */
function atLeastOne({ summary, assessments }: ReportModel): Content {
  const orders = summary ? summary.order : assessments.flatMap(({ order }) => order);
  const known = orders.flatMap(({ section, overallPValue }) =>
    overallPValue === null
      ? []
      : `${section ?? 'whole route'} ${overallPValue < 0.001 ? 'below 0.001' : showNumber(overallPValue, 3)}`,
  );
  if (known.length === 0) return null;
  return (
    <p>
      Probability of such figures if all lay equally close (at or below 0.05 at least one differs): {showList(known)}.
    </p>
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

/** What held a verdict back, and what else is known of two. */
function more({
  limits,
  runs,
  moreRuns,
  correlation,
}: Pick<ShownPair, 'limits' | 'runs' | 'moreRuns' | 'correlation'>) {
  return [
    ...limits.map(({ message }) => message),
    runs === null ? '' : `${showCount(runs, 'run')}.`,
    moreRuns === null || moreRuns === 0 ? '' : `${showCount(moreRuns, 'more run')} would decide what was seen.`,
    correlation === null ? '' : `Their offsets correlate by ${showNumber(correlation, 2)}.`,
  ]
    .filter(Boolean)
    .join(' ');
}

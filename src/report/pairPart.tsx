import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { lettersOf } from './lettersOf';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { showInterval, showList, showNumber, showSigned } from './showFigures';
import { type ShownPair, shownPairs } from './shownPairs';

/** Stretches beside one another in a table that still fits a page. */
const ABREAST = 8;

/** Every two receivers against each other: closer, equivalent or undecided, by stretch and on the whole route. */
export function pairPart(model: ReportModel): Content {
  const pairs = shownPairs(model);
  if (pairs.length === 0) return <p>There are no two recordings of one run to compare.</p>;
  const reasons = [...new Set(pairs.flatMap(({ limits }) => limits.map(({ message }) => message)))];
  const stretches = [null, ...model.sections.map(({ name }) => name)];
  const groups = Array.from({ length: Math.ceil(stretches.length / ABREAST) }, (_, i) =>
    stretches.slice(i * ABREAST, (i + 1) * ABREAST),
  );
  return (
    <>
      {[...new Set(pairs.map(({ title }) => title))].map((title) =>
        groups.map((group, i) =>
          grid(
            pairs.filter((pair) => pair.title === title),
            group,
            reasons,
            ['Every two receivers', title, groups.length > 1 ? `${i + 1} of ${groups.length}` : null]
              .filter(Boolean)
              .join(', '),
          ),
        ),
      )}
      <p class="note">
        How much further from the line the first lay than the second, with the 95 % interval; negative is closer.
        “Equivalent”: the whole 90 % interval lies within the margin stated beforehand (two one-sided tests at 5 %). No
        word: undecided, which is a result{reasons.length > 0 ? '. Why, by the letters:' : '.'}
      </p>
      {reasons.length > 0 && (
        <ol class="note reasons">
          {reasons.map((message) => (
            <li>{message}</li>
          ))}
        </ol>
      )}
      {atLeastOne(model)}
      {turnedRound(model)}
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
    // of two that lie equally close, here or on the whole, the order is noise
    const equal = summary!.pairs.some(
      (pair) =>
        pair.verdict === 'equivalent' &&
        `${pair.first} and ${pair.second}` === names &&
        (pair.section ?? section) === section,
    );
    if (equal) continue;
    pairs.set(names, [...(pairs.get(names) ?? []), section]);
  }
  if (pairs.size === 0) return null;
  return (
    <p>
      The other way round from the whole route, whether shown or not, equivalent pairs aside:{' '}
      {[...pairs].map(([names, sections]) => `${names} in ${showList(sections)}`).join('; ')}.
    </p>
  );
}

/** A row for each pair, a column for each stretch. */
function grid(
  pairs: readonly ShownPair[],
  stretches: readonly (string | null)[],
  reasons: readonly string[],
  caption: string,
): Content {
  const bySections = new Map<string, ShownPair[]>();
  for (const pair of pairs) {
    const names = JSON.stringify([pair.first.label, pair.second.label]);
    bySections.set(names, [...(bySections.get(names) ?? []), pair]);
  }
  const rows = [...bySections.values()].map((sections) => ({
    heading: [receiverName(sections[0].first), ' – ', receiverName(sections[0].second)],
    cells: stretches.map((stretch) => {
      const pair = sections.find(({ section }) => section === stretch);
      return pair ? cell(pair, reasons) : '–';
    }),
  }));
  return (
    <DataTable caption={caption} columns={['Pair', ...stretches.map((name) => name ?? 'Whole route')]} rows={rows} />
  );
}

function cell(
  { verdict, closer, first, difference, interval95, limits }: ShownPair,
  reasons: readonly string[],
): Content {
  const told = verdict !== 'undecided';
  const held = limits.map(({ message }) => lettersOf(reasons.indexOf(message)));
  return (
    <div class={told ? 'pair' : 'pair weak'}>
      {told && <strong>{verdict === 'closer' ? (closer === first ? 'closer' : 'further') : verdict}</strong>}{' '}
      <span class="difference">{difference === null ? '–' : showSigned(difference)}</span>
      {held.length > 0 && <sup>{held.join(',')}</sup>}
      {interval95 && <span class="under">{showInterval(interval95)}</span>}
    </div>
  );
}

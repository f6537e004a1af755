import type { ReferenceDoubt } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import type { ReportModel } from './reportModel';
import { showCount, showMetres, showNumber } from './showFigures';
import { sourcePart } from './sourcePart';

/** How far the reference itself can be trusted, and what would change if it lay elsewhere. */
export function doubtPart(model: ReportModel): Content {
  const { assessments, runs, sections } = model;
  const stated =
    sections.some(({ lateral95 }) => lateral95 !== null) || assessments.some(({ referenceDoubt }) => referenceDoubt);
  const named = (i: number) => (assessments.length > 1 ? `${runs[i] ?? `assessment ${i + 1}`}: ` : '');
  return (
    <>
      {!stated && (
        <p>
          No uncertainty is stated for the reference: every absolute figure here is as good as the line itself, and
          nobody can say how good that is.
        </p>
      )}
      {sourcePart(model)}
      <ul>
        {assessments.map(({ referenceDoubt, commonShift }, i) => {
          const of = named(i);
          return (
            <>
              {referenceDoubt && (
                <li>
                  {of}Moved by its stated uncertainty of {showMetres(referenceDoubt.shift)} in each of{' '}
                  {showCount(referenceDoubt.trials.length, 'direction')}, the reference {changes(referenceDoubt)}.
                </li>
              )}
              {commonShift && (
                <li>
                  {of}All recordings together lie {showMetres(commonShift.distance)} from the reference towards{' '}
                  {showNumber(commonShift.azimuth, 0)}° ({showMetres(Math.abs(commonShift.east))}{' '}
                  {commonShift.east < 0 ? 'west' : 'east'}, {showMetres(Math.abs(commonShift.north))}{' '}
                  {commonShift.north < 0 ? 'south' : 'north'}). That is reported, not removed: it may come from the
                  reference’s imagery or frame as well as from the sky of the day.
                </li>
              )}
            </>
          );
        })}
      </ul>
      {trials(assessments.flatMap(({ referenceDoubt: doubt }, i) => (doubt ? [{ of: named(i), doubt }] : [])))}
    </>
  );
}

/** What moving the reference changes, in words. */
function changes({ orderChanges, verdictChanges }: ReferenceDoubt): string {
  const pairs = (n: number) => (n === 1 ? 'one pair' : `${n} pairs`);
  const order =
    orderChanges === 0
      ? 'leaves the order on the whole route as it is'
      : `makes at most ${pairs(orderChanges)} change places in the order on the whole route`;
  const verdicts =
    verdictChanges === 0
      ? 'reverses no “closer” verdict'
      : `reverses the “closer” verdict of at most ${pairs(verdictChanges)}`;
  return `${order} and ${verdicts}`;
}

/** Every direction by itself. */
function trials(doubts: readonly { readonly of: string; readonly doubt: ReferenceDoubt }[]): Content {
  if (doubts.length === 0) return null;
  return (
    <details>
      <summary>What changes when the reference is moved, direction by direction</summary>
      <DataTable
        caption="The reference moved by its uncertainty"
        columns={[
          'Moved',
          'pairs that change places on the whole route',
          'pairs whose sign changes on any stretch',
          'of these called “closer”',
        ]}
        rows={doubts.flatMap(({ of, doubt }) =>
          doubt.trials.map(({ direction, orderChanges, signChanges, verdictChanges }) => ({
            heading: `${of}${direction}`,
            cells: [orderChanges, signChanges, verdictChanges],
          })),
        )}
      />
    </details>
  );
}

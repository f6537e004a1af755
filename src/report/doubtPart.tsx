import type { Assessment, CommonShift, ReferenceDoubt } from '../assess';
import { type Content, element, fragment } from './element';
import type { ReportModel } from './reportModel';
import { showCount, showList, showMetres } from './showFigures';
import { sourcePart } from './sourcePart';

/** How far the reference itself can be trusted, and what would change if it lay elsewhere. */
export function doubtPart(model: ReportModel): Content {
  const { assessments, sections } = model;
  const stated =
    sections.some(({ lateral95 }) => lateral95 !== null) || assessments.some(({ referenceDoubt }) => referenceDoubt);
  return (
    <>
      {!stated && (
        <p>
          No uncertainty is stated for the reference: every absolute figure here is as good as the line itself, and
          nobody can say how good that is.
        </p>
      )}
      {sourcePart(model)}
      {moved(model)}
      {shifted(model)}
    </>
  );
}

/** What is said of a run, joined where several say the same. */
function byRun(
  { assessments, strands }: ReportModel,
  words: (assessment: Assessment) => string | null,
): readonly { readonly runs: string | null; readonly said: string }[] {
  const found = assessments.flatMap((assessment, i) => {
    const said = words(assessment);
    const run = strands.find((strand) => strand.assessment === assessment)?.run ?? `assessment ${i + 1}`;
    return said === null ? [] : [{ run, said }];
  });
  return [...new Set(found.map(({ said }) => said))].map((said) => {
    const runs = found.filter((one) => one.said === said).map(({ run }) => run);
    return { runs: assessments.length === 1 || runs.length === assessments.length ? null : showList(runs), said };
  });
}

function moved(model: ReportModel): Content {
  return byRun(model, ({ referenceDoubt }) => referenceDoubt && changes(referenceDoubt)).map(({ runs, said }) => (
    <p>
      {runs !== null && `${runs}: `}
      {said}
    </p>
  ));
}

function shifted(model: ReportModel): Content {
  const found = byRun(model, ({ commonShift }) => commonShift && towards(commonShift));
  if (found.length === 0) return null;
  return (
    <p>
      All recordings together lie{' '}
      {found.map(({ runs, said }) => (runs === null ? said : `${said} (${runs})`)).join('; ')} of the reference. That is
      reported, not removed: it may come from the reference’s imagery or frame as well as from the sky of the day.
    </p>
  );
}

function towards({ distance, azimuth, east, north }: CommonShift): string {
  const sides = [
    `${showMetres(Math.abs(east))} ${east < 0 ? 'west' : 'east'}`,
    `${showMetres(Math.abs(north))} ${north < 0 ? 'south' : 'north'}`,
  ];
  return `${showMetres(distance)} towards ${Math.round(azimuth) % 360}°, ${showList(sides)}`;
}

/** What moving the reference changes, in words. */
function changes({ shift, trials, orderChanges, verdictChanges }: ReferenceDoubt): string {
  const pairs = (n: number) => (n === 1 ? 'one pair' : `${n} pairs`);
  const order =
    orderChanges === 0
      ? 'leaves the order on the whole route as it is'
      : `makes at most ${pairs(orderChanges)} change places in the order on the whole route`;
  const verdicts =
    verdictChanges === 0
      ? 'reverses no “closer” verdict'
      : `reverses the “closer” verdict of at most ${pairs(verdictChanges)}`;
  const directions = showCount(trials.length, 'direction');
  return `Moved by its stated uncertainty of ${showMetres(shift)} in each of ${directions}, the reference ${order} and ${verdicts}.`;
}

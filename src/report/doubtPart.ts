import { type Content, element } from './element';
import type { ReportModel } from './reportModel';
import { showMetres, showNumber } from './showFigures';

/** How far the reference itself can be trusted, and what would change if it lay elsewhere. */
export function doubtPart({ assessments, runs, sections }: ReportModel): Content {
  const stated =
    sections.some(({ lateral95 }) => lateral95 !== null) || assessments.some(({ referenceDoubt }) => referenceDoubt);
  return [
    !stated &&
      element(
        'p',
        {},
        'No uncertainty is stated for the reference: every absolute figure here is as good as the line itself, and nobody can say how good that is.',
      ),
    element(
      'ul',
      {},
      assessments.map(({ referenceDoubt, commonShift }, i) => {
        const of = assessments.length > 1 ? `${runs[i] ?? `assessment ${i + 1}`}: ` : '';
        return [
          referenceDoubt &&
            element(
              'li',
              {},
              `${of}Moved by its stated uncertainty of ${showMetres(referenceDoubt.shift)} in ten directions, the reference changes the order on the whole route at most ${times(referenceDoubt.orderChanges)} and turns at most ${referenceDoubt.verdictChanges} ${referenceDoubt.verdictChanges === 1 ? 'verdict' : 'verdicts'} “closer”.`.replace(
                'in ten directions',
                `in ${referenceDoubt.trials.length} directions`,
              ),
            ),
          commonShift &&
            element(
              'li',
              {},
              `${of}All recordings together lie ${showMetres(commonShift.distance)} from the reference towards ${showNumber(commonShift.azimuth, 0)}° (${showMetres(Math.abs(commonShift.east))} ${commonShift.east < 0 ? 'west' : 'east'}, ${showMetres(Math.abs(commonShift.north))} ${commonShift.north < 0 ? 'south' : 'north'}). That is reported, not removed: it can be the reference’s imagery or frame as well as the sky of the day.`,
            ),
        ];
      }),
    ),
  ];
}

function times(count: number): string {
  return count === 0 ? 'never' : count === 1 ? 'once' : `${count} times`;
}

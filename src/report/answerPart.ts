import { describePlace } from './describePlace';
import { type Content, element } from './element';
import type { ReportModel } from './reportModel';
import { orderSentences, sectionFindings } from './sectionFindings';
import { showList } from './showFigures';

/** The findings before anything else, in words: who strayed, where worst, and whether differences are shown at all. */
export function answerPart(model: ReportModel): Content {
  const { places, assessments, summary } = model;
  const refused = model.sections.filter(({ name }) => {
    const sentences = orderSentences(model, name);
    return sentences.length > 0 && !differenceShown(model, name);
  });
  return [
    element(
      'ul',
      { class: 'findings' },
      sectionFindings(model, null).map((sentence) => element('li', {}, sentence)),
    ),
    places.length > 0
      ? [
          element('p', {}, element('strong', {}, 'Furthest off:')),
          element(
            'ol',
            { class: 'worst' },
            places.slice(0, 3).map((place) => element('li', {}, describePlace(place))),
          ),
        ]
      : element('p', {}, 'No recording strayed further than the corridor allows, where one is stated.'),
    refused.length > 0 &&
      element(
        'p',
        {},
        element('strong', {}, 'No difference shown'),
        ` between any two receivers in ${showList(refused.map(({ name }) => name))}.`,
      ),
    warnings(
      assessments
        .flatMap(({ warnings }) => warnings)
        // Over several runs the summary itself says whether there were enough and whether receivers were swapped.
        .filter(({ reason }) => summary === null || (reason !== 'one-run' && reason !== 'unbalanced'))
        .concat(
          (summary?.warnings ?? []).map((w) => ({
            ...w,
            reason: 'one-run',
            recording: w.receiver,
            section: null,
            from: null,
            to: null,
          })),
        ),
    ),
  ];
}

/** Whether any two receivers were told apart there. */
function differenceShown({ assessments, summary }: ReportModel, section: string): boolean {
  const pairs = summary ? summary.pairs : assessments.flatMap(({ pairs }) => pairs);
  return pairs.some((pair) => pair.section === section && pair.verdict === 'closer');
}

function warnings(
  list: readonly { readonly recording: string | null; readonly section: string | null; readonly message: string }[],
): Content {
  const lines = [
    ...new Set(
      list.map(
        ({ recording, section, message }) =>
          `${[recording, section].filter(Boolean).join(', ')}${recording || section ? ': ' : ''}${message}`,
      ),
    ),
  ];
  if (lines.length === 0) return null;
  return element(
    'aside',
    { class: 'care', 'aria-label': 'Read with care' },
    element('h3', {}, 'Read with care'),
    element(
      'ul',
      {},
      lines.map((line) => element('li', {}, line)),
    ),
  );
}

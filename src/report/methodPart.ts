import { type Content, element } from './element';
import type { ReportModel } from './reportModel';

/** How the figures came about: every choice, version and hash, so that another can do it again. */
export function methodPart({ assessments, summary }: ReportModel): Content {
  const sentences = [
    ...new Set([...assessments.flatMap(({ method }) => method.sentences), ...(summary?.method.sentences ?? [])]),
  ];
  const excluded = assessments[0].route.excluded;
  return [
    element(
      'ul',
      {},
      sentences.map((sentence) => element('li', {}, sentence)),
    ),
    excluded.length > 0 &&
      element(
        'p',
        {},
        `Left out for all alike: ${excluded.map(({ from, to, reason }) => `${from.toFixed(0)}–${to.toFixed(0)} m (${reason})`).join('; ')}.`,
      ),
    element(
      'details',
      {},
      element('summary', {}, 'Versions and hashes of what was judged'),
      assessments.map(({ method }) => [
        element('p', {}, `${method.library} ${method.version}, `, element('code', {}, method.hash)),
        element(
          'ul',
          { class: 'hashes' },
          method.inputs.map(({ name, hash }) =>
            element('li', {}, element('bdi', {}, name), ' ', element('code', {}, hash)),
          ),
        ),
      ]),
    ),
  ];
}

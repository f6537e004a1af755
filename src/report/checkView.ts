import { checkNumber, checkOptions, InputError, type OptionKeys } from '../model';
import { type Assessments, type ReportModel, reportModel } from './reportModel';

/**
 * What a picture is asked to show: its model, its width, its section with the stretch it takes, the whole route where none
 * is named, and its title.
 *
 * @throws {InputError} unknown options, no assessment, no section of that name, a width outside its range
 */
export function checkView<Options extends { readonly width?: number; readonly section?: string }>(
  assessments: Assessments,
  options: Options,
  keys: OptionKeys<Options>,
  usualWidth: number,
) {
  checkOptions(options, keys);
  const model = reportModel(assessments);
  const section = sectionNamed(model, options.section);
  const { width = usualWidth } = options;
  return {
    model,
    width: checkNumber(width, 'options.width', { min: 240, max: 10_000 }),
    section,
    from: section?.from ?? 0,
    to: section?.to ?? model.route.length,
    title: (shows: string) => [model.route.name ?? 'The route', section?.name, shows].filter(Boolean).join(', '),
  };
}

function sectionNamed({ sections }: ReportModel, name: string | undefined) {
  const section = sections.find((candidate) => candidate.name === name);
  if (section || name === undefined) return section;
  const rule =
    sections.length > 0 ? `one of ${sections.map((s) => s.name).join(', ')}` : 'absent: the route has no sections';
  throw new InputError({ reason: 'missing', argument: 'options.section', rule, value: name });
}

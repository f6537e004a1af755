import type { AssessedSection } from '../assess';
import { checkNumber, InputError } from '../model';
import type { ReportModel } from './reportModel';

/** The width asked for, within what a picture can use. */
export function checkWidth(width: number): number {
  return checkNumber(width, 'options.width', { min: 240, max: 10_000 });
}

/**
 * The section of that name; undefined where none is asked for.
 *
 * @throws {InputError} no section has the name
 */
export function sectionNamed({ sections }: ReportModel, name: string | undefined): AssessedSection | undefined {
  if (name === undefined) return undefined;
  const section = sections.find((candidate) => candidate.name === name);
  if (!section) {
    const rule =
      sections.length > 0 ? `one of ${sections.map((s) => s.name).join(', ')}` : 'absent: the route has no sections';
    throw new InputError({ reason: 'missing', argument: 'options.section', rule, value: name });
  }
  return section;
}

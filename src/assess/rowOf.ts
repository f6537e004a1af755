import { checkOptions, InputError, type OptionKeys } from '../model';
import type { Assessment, AssessmentRow } from './Assessment';

/** Which row {@link rowOf} is to find. */
export interface RowName {
  /** The recording's name in the assessment. */
  readonly recording: string;
  /** The section's name; null for the whole route. @defaultValue null */
  readonly section?: string | null;
}

const rowKeys: OptionKeys<RowName> = { recording: true, section: true };

/**
 * The row of a recording on a section, or on the whole route: the figures of an assessment by name.
 *
 * A recording that could not be placed has no rows: asking for it throws as for a name that is not there. Sections that
 * share a name go by the one that the assessment gave them: `oval, lap 2`.
 *
 * @throws {InputError} `unknown-key`: no row of that recording, or it has none on that section
 *
 * @example
 * const quay = routeBuilder().start([2.1, 61.4]).section('quay').lineBy({ azimuth: 90, distance: 500 }).build()
 * const beside = [0, 125, 250, 375, 500].map((along) => direct(direct([2.1, 61.4], 90, along).position, 180, 3).position)
 * const assessment = assess(quay, readGeoJson(JSON.stringify({ type: 'LineString', coordinates: beside }), { name: 'A' }))
 * rowOf(assessment, { recording: 'A' }).bias // → 3.0…
 * rowOf(assessment, { recording: 'A', section: 'quay' }).biasInWords // → '3.0 m right'
 * rowOf(assessment, { recording: 'B' }) // throws unknown-key: which.recording must be one of 'A', not 'B'
 */
export function rowOf(assessment: Pick<Assessment, 'rows'>, which: RowName): AssessmentRow {
  if (!Array.isArray(assessment?.rows)) {
    throw new InputError({ reason: 'wrong-type', argument: 'assessment', rule: 'an assessment', value: assessment });
  }
  assessment.rows.forEach((row: unknown, i) => {
    if (typeof row === 'object' && row !== null) return;
    throw new InputError({ reason: 'wrong-type', argument: `assessment.rows[${i}]`, rule: 'a row', value: row });
  });
  if (which === undefined) {
    throw new InputError({ reason: 'missing', argument: 'which', rule: '{ recording, section? }', value: which });
  }
  checkOptions(which, rowKeys, 'which');
  const { recording, section = null } = which;
  const mine = named(assessment.rows, ({ recording: name }) => name, recording, 'which.recording');
  return named(mine, ({ section: name }) => name, section, 'which.section')[0];
}

function named(
  rows: readonly AssessmentRow[],
  nameOf: (row: AssessmentRow) => string | null,
  wanted: string | null,
  argument: string,
): readonly AssessmentRow[] {
  const found = rows.filter((row) => nameOf(row) === wanted);
  if (found.length > 0) return found;
  const names = [...new Set(rows.map(nameOf))].map((name) => (name === null ? 'null' : `'${name}'`));
  const rule = names.length === 0 ? 'in an assessment that has rows' : `one of ${names.join(', ')}`;
  throw new InputError({ reason: 'unknown-key', argument, rule, value: wanted });
}

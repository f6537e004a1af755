import { csvTable } from '../formats';
import { type Assessments, type ReportModel, reportModel } from './reportModel';
import { rowMetrics } from './rowMetrics';

const header = [
  'run',
  'receiver',
  'placement',
  'recording',
  'section',
  'from (m)',
  'to (m)',
  'metric',
  'value',
  'unit (1 is a share or a count)',
  'lineVerdict',
  'strayedTo',
  'sureSide',
] as const;

/**
 * Every figure of every recording and section as a table by RFC 4180: one line for each recording, section and metric,
 * with its unit; lines end in CR LF, a figure that the data can't give is an empty cell, the whole route an empty section.
 *
 * The verdict against the line, in words, stands beside each figure of its recording and section, so that lines can be
 * picked by it and `value` stays a column of numbers.
 *
 * Names that a spreadsheet would run as a formula get an apostrophe before them.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, or assessments of different routes
 * @remarks Linear in the size of the assessment, whose pairs grow with the square of the receivers.
 * @see RFC 4180, Common Format and MIME Type for Comma-Separated Values Files, section 2
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * toCsv(assess(street, [recording])).split('\r\n')[0].split(',')[7] // → 'metric'
 */
export function toCsv(assessments: Assessments): string {
  return csvTable(linesOf(reportModel(assessments)));
}

/** Line by line, so that none is held when it is written. */
function* linesOf({ strands }: ReportModel): Iterable<readonly (string | number | null)[]> {
  yield header;
  for (const { recording, run, rows } of strands) {
    for (const row of rows.values()) {
      const about = [run, recording.receiver, recording.placement, recording.name, row.section, row.from, row.to];
      const verdict = [row.lineVerdict, row.strayedTo, row.sureSide];
      for (const [metric, unit, value] of rowMetrics) yield [...about, metric, value(row) ?? null, unit, ...verdict];
    }
  }
}

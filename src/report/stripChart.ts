import { InputError } from '../model';
import { checkView } from './checkView';
import { drawStrip } from './drawStrip';
import type { Assessments, ReportModel } from './reportModel';
import type { StripRow } from './StripView';
import { shownPlaces } from './shownPlaces';
import { standaloneSvg } from './standaloneSvg';
import { lapBase, lapRows, receiverRows, runRows } from './stripRows';

/** Options of {@link stripChart}. */
export interface StripChartOptions {
  /** Pixels, 240 to 10 000. @defaultValue 900 */
  readonly width?: number;
  /** Only this section. @defaultValue the whole route */
  readonly section?: string;
  /** A panel for each receiver, for each run, or for each lap of the section (which must lie in a lap). @defaultValue 'receiver' */
  readonly panels?: 'receiver' | 'run' | 'lap';
}

/**
 * Cross-track against along-track as an SVG document: metres left (up) and right (down) of the route, with the bands of
 * the sections, of the corridor and of the reference's own uncertainty, a panel for each receiver. A gap in a recording is
 * a gap in its line. However long the route, each pixel shows the least and the greatest offset: no peak is lost.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, assessments of different routes, a section that isn't there, a width outside its range
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * stripChart(assess(street, [recording])).includes('>LEFT</text>') // → true
 */
export function stripChart(assessments: Assessments, options: StripChartOptions = {}): string {
  const view = checkView(assessments, options, { width: true, section: true, panels: true }, 900);
  const { model, width, section, from, to } = view;
  const { panels = 'receiver' } = options;
  return standaloneSvg(
    drawStrip(model, {
      width,
      title: view.title('metres left and right of it'),
      rows: rowsOf(model, panels, section?.name, from, to),
      rowHeight: 110,
      places: shownPlaces(model),
      sections: section ? 'none' : 'named',
      count: panels === 'lap' ? 'from row' : 'from start',
      key: 'below',
    }),
  );
}

function rowsOf(model: ReportModel, panels: unknown, name: string | undefined, from: number, to: number): StripRow[] {
  if (panels === 'receiver') return receiverRows(model, from, to);
  if (panels === 'run') return runRows(model, from, to);
  if (panels !== 'lap') {
    const rule = "'receiver', 'run' or 'lap'";
    throw new InputError({ reason: 'out-of-range', argument: 'options.panels', rule, value: panels });
  }
  const rows = name === undefined ? [] : lapRows(model, lapBase(name));
  if (rows.length === 0) {
    const rule = 'a section that lies in a lap when panels are laps';
    throw new InputError({ reason: 'misplaced', argument: 'options.section', rule, value: name });
  }
  return rows;
}

import { InputError } from '../model';
import { checkView } from './checkView';
import { drawStrip } from './drawStrip';
import { type StretchPictureOptions, stretchPictureKeys } from './PictureOptions';
import type { Assessments, ReportModel } from './reportModel';
import type { StripRow } from './StripView';
import { shownPlaces } from './shownPlaces';
import { lapBase, lapRows, receiverRows, runRows } from './stripRows';

/** Pixels of a strip chart that no panel takes, and those between two panels. */
const AROUND = 66;
const BETWEEN = 25;

/** Options of {@link stripChart}. */
export interface StripChartOptions extends StretchPictureOptions {
  /** A panel for each receiver, for each run, or for each lap of the section (which must lie in a lap). @defaultValue 'receiver' */
  readonly panels?: 'receiver' | 'run' | 'lap';
}

/**
 * Cross-track against along-track as an SVG document: metres left (up) and right (down) of the route, with the bands of
 * the sections, of the corridor and of the reference's own uncertainty, a panel for each receiver. A gap in a recording is
 * a gap in its line. However long the route, each pixel shows the least and the greatest offset: no peak is lost.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, assessments of different routes, a section or receiver that isn't there, a number
 *   outside its range
 * @remarks Linear in the size of the assessment, whose pairs grow with the square of the receivers.
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * stripChart(assess(street, [recording])).includes('>LEFT</text>') // → true
 */
export function stripChart(assessments: Assessments, options: StripChartOptions = {}): string {
  const view = checkView(assessments, options, { ...stretchPictureKeys, panels: true }, 900);
  const { model, width, height, section, from, to } = view;
  const { panels = 'receiver' } = options;
  const rows = rowsOf(model, panels, section?.name, from, to);
  return view.document(
    drawStrip(model, {
      width,
      title: view.title('metres left and right of it'),
      rows,
      rowHeight: height === undefined ? 110 : Math.max(40, (height - AROUND) / rows.length - BETWEEN),
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

import { bisectLeft, bisectRight } from 'd3-array';
import type {
  Feature,
  FeatureCollection,
  LineString,
  MultiLineString,
  Point as PointGeometry,
  Position,
} from 'geojson';
import type {
  AssessedRoute,
  AssessedSection,
  AssessmentRow,
  Corner,
  DrawnLine,
  Exclusion,
  Excursion,
  Passage,
} from '../assess';
import { cutAtAntimeridian, wrapLongitude } from '../geodesy';
import { describePlace } from './describePlace';
import { passagesOf } from './passagesOf';
import { type Assessments, type ReportModel, reportModel, type Strand, type Straying } from './reportModel';

/** A feature's geometry: lines cut at the ±180° meridian become MultiLineStrings. */
export type ReportGeometry = LineString | MultiLineString | PointGeometry;

/** Whose a feature is. */
export interface ReportStrand {
  readonly name: string;
  readonly receiver: string | null;
  readonly placement: string | null;
  readonly run: string | null;
}

/** What a map would be coloured by; nothing of what was not placed. */
export interface ReportFigures
  extends Partial<
    Pick<
      AssessmentRow,
      | 'coverage'
      | 'meanAbsolute'
      | 'interval95'
      | 'bias'
      | 'biasInterval95'
      | 'insideCorridor'
      | 'insideCorridorInterval95'
      | 'correctSide'
      | 'correctSideInterval95'
      | 'lineVerdict'
      | 'strayedTo'
      | 'lineLimit'
      | 'sureSide'
      | 'sideLimit'
    >
  > {
  /** Metres, 95 % of the error along the route. */
  readonly alongTrackP95?: number | null;
}

/** The properties of a feature, told apart by `kind`. */
export type ReportProperties =
  | ({ readonly kind: 'route' } & Pick<AssessedRoute, 'name' | 'length'>)
  | (AssessedSection & { readonly kind: 'section'; readonly recordings: readonly (ReportStrand & ReportFigures)[] })
  | (AssessedRoute['marks'][number] & { readonly kind: 'mark' })
  | (Exclusion & { readonly kind: 'excluded' })
  | (ReportStrand & ReportFigures & { readonly kind: 'recording'; readonly lag: number | null })
  | (Omit<Excursion, 'position' | 'number'> &
      Pick<ReportStrand, 'receiver' | 'run'> & { readonly kind: 'excursion'; readonly place: number })
  | (Omit<Passage, 'number' | 'position'> & Pick<ReportStrand, 'receiver' | 'run'> & { readonly kind: 'passage' })
  | { readonly kind: 'place'; readonly place: number; readonly text: string }
  | (Omit<Corner, 'position'> & { readonly kind: 'corner' });

/**
 * What a map program needs to show where who strayed: a GeoJSON FeatureCollection, each feature with its `kind`.
 *
 * - `route`, `section`, `mark`, `excluded`: the reference; a section with what each of its `recordings` shows there: figures,
 *   intervals, the verdict against the line (`lineVerdict`, `strayedTo`)
 * - `recording`, with the same of the whole route: what was recorded from joining the route to leaving it, never the way
 *   there or home, nor what lies further from the route than 50 m or half the corridor where that is more
 * - `excursion`: the recording's line where it was further off than the corridor allows, with `peak` (metres, right of
 *   travel positive), `side` (null, and `peak` without sign, where it ran against the route), `metres`, `seconds` and the number of its `place`
 * - `passage`: beside its deepest place on the route, a stay in an impossible `area`, or outside every allowed one (null), with
 *   `metres`, `seconds`, `deepest`
 * - `place`: where the worst peak of each numbered place lies on the route
 * - `corner`: turns of the route
 *
 * Positions are WGS 84, longitude first, longitudes within [-180, 180), lines cut at that meridian (RFC 7946, 3.1.9).
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, or assessments of different routes
 * @remarks Linear in the size of the assessment, whose pairs grow with the square of the receivers.
 * @see RFC 7946, The GeoJSON Format
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * toGeoJson(assess(street, [recording])).features.map(({ properties }) => properties.kind) // → ['route', 'recording']
 */
export function toGeoJson(assessments: Assessments): FeatureCollection<ReportGeometry, ReportProperties> {
  const model = reportModel(assessments);
  const { route, strands, places } = model;
  const features: Feature<ReportGeometry, ReportProperties>[] = [];
  const add = (geometry: ReportGeometry | null, properties: ReportProperties) => {
    if (geometry) features.push({ type: 'Feature', geometry, properties });
  };
  add(lineGeometry([route.line]), { kind: 'route', name: route.name, length: route.length });
  for (const section of route.sections) {
    add(lineGeometry([stretchOf(route.line, section.from, section.to)]), {
      kind: 'section',
      ...section,
      recordings: strands.flatMap((strand) => {
        const row = strand.rows.get(section.name);
        return row ? [{ ...strandProperties(strand), ...rowProperties(row) }] : [];
      }),
    });
  }
  for (const mark of route.marks) add(pointAlong(model, mark.alongTrack), { kind: 'mark', ...mark });
  for (const excluded of route.excluded) {
    add(lineGeometry([stretchOf(route.line, excluded.from, excluded.to)]), { kind: 'excluded', ...excluded });
  }
  for (const strand of strands) {
    add(lineGeometry(strand.recording.pieces), {
      kind: 'recording',
      ...strandProperties(strand),
      lag: strand.recording.lag?.median ?? null,
      ...rowProperties(strand.rows.get(null)),
    });
  }
  for (const place of places) {
    for (const straying of place.strayings) {
      add(excursionLine(straying), excursionProperties(straying, place.number));
    }
  }
  for (const place of places) {
    const [{ excursion }] = place.strayings;
    add(point(excursion.position), { kind: 'place', place: place.number, text: describePlace(place) });
  }
  for (const strand of strands) {
    for (const { position, number: _, ...passage } of passagesOf(strand)) {
      add(point(position), { kind: 'passage', ...passage, receiver: strand.receiver.label, run: strand.run });
    }
  }
  for (const { position, passages, ...corner } of model.assessments[0].corners) {
    add(point(position), { kind: 'corner', ...corner, passages });
  }
  return { type: 'FeatureCollection', features };
}

function strandProperties({ recording, receiver, run }: Strand): ReportStrand {
  const { name, placement } = recording;
  return { name, receiver: recording.receiver ?? receiver.label, placement, run };
}

function rowProperties(row: AssessmentRow | undefined): ReportFigures {
  if (!row) return {};
  const { meanAbsolute, interval95, bias, biasInterval95, coverage, insideCorridor, insideCorridorInterval95 } = row;
  const {
    correctSide,
    correctSideInterval95,
    lineVerdict,
    strayedTo,
    lineLimit,
    sureSide,
    sideLimit,
    alongTrackError,
  } = row;
  return {
    ...{ coverage, meanAbsolute, interval95, bias, biasInterval95, insideCorridor, insideCorridorInterval95 },
    ...{ correctSide, correctSideInterval95, lineVerdict, strayedTo, lineLimit, sureSide, sideLimit },
    alongTrackP95: alongTrackError?.p95 ?? null,
  };
}

function excursionProperties({ strand, excursion }: Straying, place: number): ReportProperties {
  const { position: _, number, ...figures } = excursion;
  return { kind: 'excursion', place, ...figures, receiver: strand.receiver.label, run: strand.run };
}

/** The recording's own line between the excursion's ends; the route's where none was drawn there. */
function excursionLine({ strand, excursion: { from, to } }: Straying): LineString | MultiLineString | null {
  const pieces = strand.recording.pieces.flatMap((piece): DrawnLine[] => {
    const within = (s: number | null) => s !== null && s >= from && s <= to;
    const begin = piece.alongTrack.findIndex(within);
    if (begin < 0) return [];
    let end = piece.alongTrack.length - 1;
    while (!within(piece.alongTrack[end])) end--;
    // One more at each end, so that a short excursion between two drawn points is a line too.
    const [first, last] = [Math.max(0, begin - 1), Math.min(piece.lon.length, end + 2)];
    return [
      {
        lon: piece.lon.slice(first, last),
        lat: piece.lat.slice(first, last),
        alongTrack: piece.alongTrack.slice(first, last),
      },
    ];
  });
  return lineGeometry(pieces) ?? lineGeometry([stretchOf(strand.assessment.route.line, from, to)]);
}

function lineGeometry(lines: readonly DrawnLine[]): LineString | MultiLineString | null {
  const cut = lines
    .filter(({ lon }) => lon.length > 1)
    .flatMap(({ lon, lat }) => cutAtAntimeridian(lon.map((longitude, i): Position => [longitude, lat[i]])))
    .map(({ positions }) => positions)
    .filter(({ length }) => length > 1);
  if (cut.length === 0) return null;
  return cut.length === 1 ? { type: 'LineString', coordinates: cut[0] } : { type: 'MultiLineString', coordinates: cut };
}

function point([longitude, latitude]: Position): PointGeometry {
  return { type: 'Point', coordinates: [wrapLongitude(longitude), latitude] };
}

function pointAlong({ route: { line } }: ReportModel, alongTrack: number): PointGeometry {
  return point(interpolated(line, alongTrack));
}

/** The drawn route between two places, both included. */
function stretchOf(line: DrawnLine, from: number, to: number): DrawnLine {
  const along = alongRoute(line);
  const [begin, end] = [bisectRight(along, from), bisectLeft(along, to)];
  const [first, last] = [interpolated(line, from), interpolated(line, to)];
  return {
    lon: [first[0], ...line.lon.slice(begin, end), last[0]],
    lat: [first[1], ...line.lat.slice(begin, end), last[1]],
    alongTrack: [from, ...along.slice(begin, end), to],
  };
}

/** Metres along-track of the positions of a drawn route: each has its place, in order. */
function alongRoute({ alongTrack }: DrawnLine): readonly number[] {
  return alongTrack as readonly number[];
}

function interpolated(line: DrawnLine, s: number): Position {
  const along = alongRoute(line);
  const after = Math.min(Math.max(bisectLeft(along, s), 1), along.length - 1);
  const span = along[after] - along[after - 1];
  const fraction = span > 0 ? Math.min(1, Math.max(0, (s - along[after - 1]) / span)) : 0;
  const between = (column: readonly number[]) =>
    Number((column[after - 1] + fraction * (column[after] - column[after - 1])).toFixed(7)) + 0;
  return [between(line.lon), between(line.lat)];
}

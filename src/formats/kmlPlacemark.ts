import type { Steps } from '../model';
import type { IssueLog } from './IssueLog';
import { PointWords } from './PointWords';
import { typedValue } from './typedValue';
import type { XmlReader } from './XmlReader';

/** Columns beside the coordinates that `writeKml` leaves in `ExtendedData`. */
export type ExtraColumns = Partial<
  Record<'time' | 'hdop' | 'satellites' | 'accuracy' | 'count' | 'gaps', readonly string[]>
>;

/** A line of a placemark before its times are known: they may stand after it. */
export interface RawLine {
  readonly points: PointWords;
  readonly times?: readonly string[];
  /** Laid on the ground, whatever its heights. */
  readonly clamped: boolean;
}

/** What a placemark holds. */
export interface KmlPlacemark {
  readonly lines: RawLine[];
  /** Its points, as lines of one point, each with the time stamp of the placemark. */
  readonly points: RawLine[];
  readonly extra: ExtraColumns;
  readonly attributes: Readonly<Record<string, string | number | boolean>>;
  readonly name?: string;
}

/** The placemark just opened; areas and models are noted and left out. */
export function* kmlPlacemark(xml: XmlReader, fileIssues: IssueLog, place: () => string): Steps<KmlPlacemark> {
  const lines: RawLine[] = [];
  const points: RawLine[] = [];
  const extra: ExtraColumns = {};
  const attributes = new Map<string, string | number | boolean>();
  let name: string | undefined;
  let stamp = '';
  function* addTrack(): Steps<void> {
    lines.push(yield* readTrack(xml));
  }
  const visit = (child: string): Steps<void> | undefined => {
    switch (child) {
      case 'LineString':
        lines.push(readCoordinates(xml));
        break;
      case 'Track':
        return addTrack();
      case 'Point':
        points.push(readCoordinates(xml));
        break;
      case 'MultiGeometry':
      case 'MultiTrack':
        return xml.eachChildInSteps(visit);
      case 'Polygon':
      case 'LinearRing':
      case 'Model':
        fileIssues.note('not-a-line', place);
        break;
      case 'TimeStamp':
        xml.eachChild((inner) => {
          if (inner === 'when') stamp = xml.content().trim();
        });
        break;
      case 'name':
        name ??= xml.content();
        break;
      case 'description':
        attributes.set('description', xml.content());
        break;
      case 'ExtendedData':
        xml.eachChild((inner) => {
          if (inner === 'Data') readData(xml, extra, attributes);
        });
        break;
    }
    return undefined;
  };
  yield* xml.eachChildInSteps(visit);
  const stamped = points.map((point) => ({ ...point, ...(stamp === '' ? {} : { times: [stamp] }) }));
  return {
    lines,
    points: stamped,
    extra,
    attributes: Object.fromEntries(attributes),
    ...(name === undefined ? {} : { name }),
  };
}

function readCoordinates(xml: XmlReader): RawLine {
  let text = '';
  let clamped = true;
  xml.eachChild((child) => {
    if (child === 'coordinates') text = xml.content().trim();
    else if (child === 'altitudeMode') clamped = xml.content().trim().startsWith('clamp');
  });
  // a document may be full of lines without a point
  if (text === '') return clamped ? NOTHING_CLAMPED : NOTHING;
  return { points: new PointWords(text, 'blanks'), clamped };
}

const NOTHING: RawLine = { points: new PointWords('', 'blanks'), clamped: false };
const NOTHING_CLAMPED: RawLine = { ...NOTHING, clamped: true };

/** `when` and `coord` are parallel: the first of each belong together, wherever they stand. */
function* readTrack(xml: XmlReader): Steps<RawLine> {
  const times: string[] = [];
  let points = '';
  let clamped = true;
  yield* xml.eachChildInSteps((child) => {
    if (child === 'when') times.push(xml.content().trim());
    else if (child === 'coord') {
      points += `${xml
        .content()
        .trim()
        .replace(/[\s,]+/g, ',')}\n`;
    } else if (child === 'altitudeMode') clamped = xml.content().trim().startsWith('clamp');
    return undefined;
  });
  return { points: new PointWords(points, 'lines'), ...(times.length > 0 ? { times } : {}), clamped };
}

function readData(xml: XmlReader, extra: ExtraColumns, attributes: Map<string, string | number | boolean>): void {
  const key = xml.attribute('name') ?? '';
  let text = '';
  xml.eachChild((child) => {
    if (child === 'value') text = xml.content();
  });
  const column = /^fix (time|hdop|satellites|accuracy|count|gaps)$/.exec(key)?.[1] as keyof ExtraColumns | undefined;
  const own = /^attribute (string|number|boolean) (.*)$/s.exec(key);
  if (column) extra[column] = text.split(' ');
  else if (own) attributes.set(own[2], typedValue(text, own[1]));
  else if (key !== '') attributes.set(key, text);
}

import { InputError, type RecordingFormat } from '../model';
import { decodeText } from './decodeText';
import { isPlainXml } from './isPlainXml';
import { enterXml } from './openXml';
import { checkSize, gunzip, isGzip, isZip, MAX_BYTES } from './unpack';

/** The outermost elements of the XML formats. */
const roots: Readonly<Record<string, RecordingFormat>> = { gpx: 'gpx', kml: 'kml', TrainingCenterDatabase: 'tcx' };

/** Bytes unpacked, and the format that their content is of. */
export interface Detected {
  readonly data: string | Uint8Array;
  readonly format: RecordingFormat;
}

/**
 * The format of a document by its content: never by its name, which may be wrong.
 *
 * @throws {InputError} `unreadable` for a document of none of the formats
 */
export function detectFormat(packed: string | Uint8Array, most = MAX_BYTES): Detected {
  const data = typeof packed !== 'string' && isGzip(packed) ? gunzip(packed, most) : packed;
  if (typeof data !== 'string') {
    if (isZip(data)) return { data, format: 'kmz' };
    if (String.fromCharCode(...data.subarray(8, 12)) === '.FIT') return { data, format: 'fit' };
    // a log may hold anything between its sentences, so that it is known before it is taken for text
    if (isNmea(new TextDecoder('latin1').decode(data.subarray(0, 65_536)))) return { data, format: 'nmea' };
  }
  if (typeof data !== 'string' && isPlainXml(data.subarray(0, BEGINNING))) {
    // known by its beginning, it need not be decoded as a whole; what is not is looked at as text
    const root = beginningRoot(new TextDecoder().decode(data.subarray(0, BEGINNING)));
    if (root !== undefined && Object.hasOwn(roots, root)) {
      checkSize(data, most);
      return { data, format: roots[root] };
    }
  }
  const text = decodeText(data, most);
  if (isNmea(text.slice(0, 65_536))) return { data, format: 'nmea' };
  const first = /\S/.exec(text.replace(/^\ufeff/, ''))?.[0];
  if (first === '{') return { data: text, format: 'geojson' };
  if (first !== '<') return { data: text, format: 'csv' };
  const root = rootOf(text);
  if (Object.hasOwn(roots, root)) return { data: text, format: roots[root] };
  throw new InputError({
    reason: 'unreadable',
    argument: 'data',
    rule: 'XML whose outermost element is gpx, kml or TrainingCenterDatabase',
    value: root,
  });
}

/** Characters in which the outermost element mostly begins. */
const BEGINNING = 2000;

/** The name of the outermost element: the whole document is looked at only where its beginning has none. */
const rootOf = (text: string) => beginningRoot(text.slice(0, BEGINNING)) ?? enterXml(text).xml.name;

/** The name of the outermost element that opens in the beginning of a document. */
function beginningRoot(beginning: string): string | undefined {
  // of nearly all it is the first tag behind the declaration, and no parser need be made to find it
  const first = /^\ufeff?(?:<\?xml [^<>]*\?>)?\s*<(\w+)[\s>]/.exec(beginning)?.[1];
  if (first !== undefined && Object.hasOwn(roots, first)) return first;
  try {
    return enterXml(beginning, 'may be missing').xml.name || undefined;
  } catch {
    // something else is wrong, or too much stands before it: told of the document as it is
    return undefined;
  }
}

const isNmea = (text: string) =>
  /(?:^|[\r\n])[^\r\n<{]*\$[A-Z]{2}(?:RMC|GGA|GNS|GLL|GSA|GSV|VTG|ZDA|TXT|GST),/.test(text);

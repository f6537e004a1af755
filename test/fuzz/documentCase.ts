import {
  InputError,
  type LineFormat,
  type Recording,
  type RecordingFormat,
  readCsv,
  readGeoJson,
  readGpx,
  readKml,
  readLines,
  readRecordings,
  writeCsv,
  writeGeoJson,
  writeGpx,
  writeKml,
} from 'datumline';
import { changeBytes, changeText, nasty } from '../support/mutations';
import { sampleFiles } from '../support/sampleFiles';
import type { Dice } from './Dice';

const texts = ['gpx', 'tcx', 'kml', 'geojson', 'nmea', 'csv'] as const;
const documents = Object.fromEntries(texts.map((key) => [key, new TextDecoder().decode(sampleFiles[key])]));
const binaries = ['fit', 'kmz', 'gzipped'] as const;

const kinds = ['cut', 'remove', 'double', 'move', 'insert', 'replace', 'swap'] as const;
const byteKinds = ['cut', 'remove', 'double', 'insert', 'replace', 'flip'] as const;

function changedText(dice: Dice, text: string): string {
  const changes = dice.list(0, 4, () => ({
    kind: dice.pick(kinds),
    at: dice.roll(),
    to: dice.roll(),
    length: dice.integer(1, 60),
    word: dice.chance(0.8) ? dice.pick(nasty) : String.fromCharCode(dice.integer(0, 65_535), dice.integer(0, 255)),
  }));
  let out = changeText(text, changes);
  if (dice.chance(0.3)) {
    // one of its numbers, another
    const numbers = [...out.matchAll(/\d+(?:\.\d+)?/g)];
    if (numbers.length > 0) {
      const { 0: old, index } = dice.pick(numbers);
      out = out.slice(0, index) + dice.pick(nasty) + out.slice(index + old.length);
    }
  }
  if (dice.chance(0.02)) {
    const from = dice.integer(0, out.length);
    out = out.slice(0, from) + out.slice(from, from + dice.integer(1, 400)).repeat(200) + out.slice(from);
  }
  return out;
}

function changedBytes(dice: Dice, bytes: Uint8Array): Uint8Array {
  const changes = dice.list(0, 4, () => ({
    kind: dice.pick(byteKinds),
    at: dice.roll(),
    bytes: Uint8Array.from(dice.list(1, 8, () => dice.integer(0, 255))),
  }));
  return changeBytes(bytes, changes);
}

/** A document changed in a few places: read to sound recordings or lines that are written and read again, or refused. */
export async function documentCase(dice: Dice): Promise<string | undefined> {
  const key = dice.pick([...texts, ...texts, ...binaries]);
  const isText = (texts as readonly string[]).includes(key);
  const text = isText ? changedText(dice, documents[key]) : '';
  const data = isText
    ? dice.chance(0.5)
      ? text
      : new TextEncoder().encode(text)
    : changedBytes(dice, sampleFiles[key as 'fit']);
  const asked = dice.chance(0.6) && key !== 'gzipped' ? (key as RecordingFormat) : undefined;
  try {
    if (isText && dice.chance(0.15)) return unsoundLines(readLines(data, asked ? { format: asked as LineFormat } : {}));
    const options = { ...(dice.chance(0.8) ? { zone: 'UTC' } : {}), ...(asked ? { format: asked } : {}) };
    const recordings = await readRecordings(data, options);
    return unsoundRecordings(recordings) ?? (dice.chance(0.2) ? lostInWriting(dice, recordings) : undefined);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return / must be .*, not /s.test(error.message) ? undefined : `it says ${error.message}`;
  }
}

function unsoundLines(lines: ReturnType<typeof readLines>): string | undefined {
  for (const { name, positions } of lines) {
    if (name === '' || positions.length < 2 || !positions.flat().every(Number.isFinite)) return 'a line is unsound';
  }
  return lines.length === 0 ? 'no line' : undefined;
}

function unsoundRecordings(recordings: readonly Recording[]): string | undefined {
  if (recordings.length === 0) return 'no recording';
  for (const { name, lon, lat, time, height, hdop, satellites, accuracy, gapBefore, issues } of recordings) {
    const n = lon.length;
    if (name === '') return 'a recording without a name';
    if (n < 2 || gapBefore.length !== n || gapBefore[0] !== 1) return 'a recording of odd columns';
    if (!lon.every((value) => value >= -180 && value < 180)) return 'a longitude off the globe';
    if (!lat.every((value) => Math.abs(value) <= 90)) return 'a latitude off the globe';
    for (const column of [time, height, hdop, satellites, accuracy]) {
      if (column === undefined) continue;
      if (column.length !== n) return 'a column of another length';
      if (column.some((value) => Math.abs(value) === Infinity)) return 'an infinite number';
      if (column.every(Number.isNaN)) return 'a column of nothing';
    }
    if (issues.some(({ count, place, message }) => !(count > 0) || !place || !message)) return 'an issue of nothing';
  }
  return undefined;
}

const pairs = [
  [writeGpx, readGpx],
  [writeKml, readKml],
  [writeGeoJson, readGeoJson],
  [writeCsv, readCsv],
] as const;

function lostInWriting(dice: Dice, [recording]: readonly Recording[]): string | undefined {
  const format = dice.integer(0, 3);
  const [write, read] = pairs[format];
  const written = write(recording, { identity: 'keep', times: 'absolute' });
  let back: Recording;
  try {
    [back] = read(written);
  } catch (error) {
    return `what was written of it is not read: ${(error as Error).message}`;
  }
  for (const key of ['lon', 'lat', 'time', 'height', 'hdop', 'satellites', 'accuracy', 'gapBefore'] as const) {
    const [column, other] = [recording[key], back[key]];
    if (column?.length !== other?.length) return `${key} is lost in format ${format}`;
    for (let i = 0; i < (column?.length ?? 0); i++) {
      if (!(column![i] === other![i] || (Number.isNaN(column![i]) && Number.isNaN(other![i])))) {
        return `${key}[${i}] is ${other![i]} and was ${column![i]} in format ${format}`;
      }
    }
  }
  if (back.name !== recording.name) return `the name is lost in format ${format}`;
  const sorted = (attributes: Recording['attributes']) => JSON.stringify(Object.entries(attributes).sort());
  return pairs[format][0] !== writeCsv && sorted(back.attributes) !== sorted(recording.attributes)
    ? `the attributes are lost in format ${format}`
    : undefined;
}

import type { Position } from 'geojson';
import { checkOptions, finish, InputError, type OptionKeys, type ReadIssue } from '../model';
import { bytesOf } from './bytesOf';
import type { DocumentData } from './DocumentSource';
import { detectFormat } from './detectFormat';
import { checkLimits } from './ReadOptions';
import { type LineFormat, trackReaders } from './trackReaders';

/** Options of {@link readLines}. */
export interface ReadLinesOptions {
  /** The format, where it is known. @defaultValue recognised from the content */
  readonly format?: LineFormat;
  /** As {@link ReadOptions} has it. */
  readonly maxBytes?: number;
  /** As {@link ReadOptions} has it, of lines. */
  readonly maxRecordings?: number;
}

/** A line to author from: a route, a street, a kerb, a survey string. */
export interface NamedLine {
  readonly name: string;
  /** At least 2. */
  readonly positions: Position[];
  /** What was dropped or mended of the line it was part of. */
  readonly issues: readonly ReadIssue[];
}

const lineFormats = Object.keys(trackReaders).filter((format) => format !== 'fit');

const keys: OptionKeys<ReadLinesOptions> = { format: true, maxBytes: true, maxRecordings: true };

/** Times are of no use to a line: that none states its zone must not stop it. */
const timeless = () => Number.NaN;

/**
 * Every line in a document, to author a route from: GPX routes and tracks, KML lines, GeoJSON lines and rings, TCX
 * courses, strings of a table. A line with gaps comes as several, its name with the number of the piece after it.
 *
 * @example
 * const kerb = '<rte><name>kerb</name><rtept lat="60" lon="5"/><rtept lat="60.001" lon="5"/></rte>';
 * readLines(`<gpx>${kerb}</gpx>`)[0] // → { name: 'kerb', positions: [[5, 60], [5, 60.001]] }
 *
 * @throws {InputError} as {@link readGpx}; `wrong-type` for a FIT file, which holds recordings only
 */
export function readLines(data: DocumentData, options: ReadLinesOptions = {}): [NamedLine, ...NamedLine[]] {
  checkOptions(options, keys);
  checkLimits(options);
  const { maxBytes, maxRecordings } = options;
  const whole = bytesOf(data);
  const detected =
    options.format === undefined ? detectFormat(whole, maxBytes) : { data: whole, format: options.format };
  if (!lineFormats.includes(detected.format)) {
    throw new InputError({
      reason: 'wrong-type',
      argument: options.format === undefined ? 'data format' : 'options.format',
      rule: `one of ${lineFormats.join(', ')}`,
      value: detected.format,
    });
  }
  const { tracks, fileIssues } = finish(
    trackReaders[detected.format](detected.data, { readTime: timeless, wanted: 'lines', maxBytes, maxRecordings }),
  );
  const lines: NamedLine[] = [];
  let single = tracks.short;
  fileIssues.take(tracks.issues);
  for (const { track, number } of tracks.whole) {
    const { builder } = track;
    const { lon, lat, height, gapBefore, issues } = builder.build({ name: '', source: track.source, attributes: {} });
    const starts = Array.from(gapBefore.keys()).filter((at) => at === 0 || gapBefore[at]);
    const pieces = starts.map((from, k) => ({ from, to: starts[k + 1] ?? lon.length }));
    const whole = pieces.filter(({ from, to }) => to - from >= 2);
    single += pieces.length - whole.length;
    const name = track.name || `line ${number}`;
    whole.forEach(({ from, to }, k) => {
      const positions: Position[] = [];
      for (let at = from; at < to; at++) {
        const known = height !== undefined && !Number.isNaN(height[at]);
        positions.push(known ? [lon[at], lat[at], height[at]] : [lon[at], lat[at]]);
      }
      lines.push({ name: whole.length === 1 ? name : `${name} ${k + 1}`, positions, issues });
    });
  }
  if (single > 0) fileIssues.note('single-point', () => 'data', single);
  const shared = fileIssues.list();
  if (lines.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'data',
      rule: 'a line of at least 2 points',
      value: single,
      hint: fileIssues.sentence() || undefined,
    });
  }
  for (const [i, line] of lines.entries())
    if (shared.length > 0) lines[i] = { ...line, issues: [...line.issues, ...shared] };
  return lines as [NamedLine, ...NamedLine[]];
}

import type { ReadIssueReason } from './issueSentences';
import type { Count } from './Quantity';

/** The formats a recording can come from. */
export type RecordingFormat = 'gpx' | 'tcx' | 'kml' | 'kmz' | 'geojson' | 'nmea' | 'csv' | 'fit';

/**
 * One kind of thing dropped or mended while reading, with how often and where first. Measures that a `Recording` has no
 * column for (heart rate, cadence, temperature) are never read, and not counted.
 */
export interface ReadIssue {
  /** A short, stable word: `missing-position`, `zone-less-time`, … */
  readonly reason: ReadIssueReason;
  readonly count: Count;
  /** Where it first stood in the document: `segment 2, point 17`. */
  readonly place: string;
  /** What was done about it, as a sentence. */
  readonly message: string;
}

/**
 * What a receiver recorded: columns of the same length, one entry a fix, in the order of the file.
 */
export interface Recording {
  readonly name: string;
  /** Degrees, as recorded, within [-180, 180). */
  readonly lon: Float64Array;
  /** Degrees. */
  readonly lat: Float64Array;
  /** Milliseconds since the Unix epoch; NaN where a fix has none; absent when no fix has one. */
  readonly time?: Float64Array;
  /** Metres, as recorded; NaN where a fix has none; absent when no fix has one. */
  readonly height?: Float64Array;
  /** Horizontal dilution of precision as recorded; NaN where a fix has none; absent when no fix has one. */
  readonly hdop?: Float64Array;
  /** Satellites used as recorded; NaN where a fix has none; absent when no fix has one. */
  readonly satellites?: Float64Array;
  /** Horizontal accuracy in metres as the receiver states it; NaN where a fix has none; absent when no fix has one. */
  readonly accuracy?: Float64Array;
  /** 1 where the line to the fix before is not to be trusted: a new segment, a pause, fixes dropped. The first is 1. */
  readonly gapBefore: Uint8Array;
  /** What was dropped or mended, where and why. */
  readonly issues: readonly ReadIssue[];
  /** Where it comes from: the format of its file, or the columns of a caller. */
  readonly source: { readonly format: RecordingFormat | 'columns'; readonly [key: string]: unknown };
  /** What else the file said of the whole track, by the file's own names. */
  readonly attributes: Readonly<Record<string, string | number | boolean>>;
}

/** What a reader gives: one recording at least. */
export type Recordings = [Recording, ...Recording[]];

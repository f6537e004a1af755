import { wrapLongitude } from '../geodesy';
import { checkCoordinates, InputError, type Recording } from '../model';
import { FixColumn } from './FixColumn';
import { findBreaks } from './findBreaks';
import { IssueLog } from './IssueLog';

/** What a reader knows of one fix; NaN for what it does not. */
export interface RawFix {
  lon: number;
  lat: number;
  time: number;
  height: number;
  hdop: number;
  satellites: number;
  accuracy: number;
}

/** Heights that stand for none: the voids of elevation models, and the mark of a binary format after its scaling. */
export const heightMarks: ReadonlySet<number> = new Set([-32768, -9999, 12607]);

/** Milliseconds from 1970 to the furthest instant that a date can be written of: ECMA-262, 21.4.1.1. */
const LAST_INSTANT = 8.64e15;

/** A position whose angles are both this far out is a mark: 0x7FFFFFFF semicircles are 179.99999991618°. */
const MARK_ANGLE = 179.9999;

/**
 * Takes the fixes of one track in the order of the file and applies what holds whatever the format: what has no position
 * is dropped, what repeats is dropped, nothing is put in another order, and every break in the line is marked.
 */
export class RecordingBuilder {
  readonly issues = new IssueLog();
  count = 0;
  /** `stated`: the document states every gap there is, so that none is found by pauses, jumps or times that fall. */
  gaps: 'found' | 'stated' = 'found';
  readonly #lon = new FixColumn();
  readonly #lat = new FixColumn();
  readonly #time = new FixColumn();
  readonly #height = new FixColumn();
  readonly #hdop = new FixColumn();
  readonly #satellites = new FixColumn();
  readonly #accuracy = new FixColumn();
  readonly #gaps: number[] = [];
  /** Where and when the last fix was. */
  #lastLon = Number.NaN;
  #lastLat = Number.NaN;
  #lastTime = Number.NaN;
  #broken = true;
  #unplaced = false;
  #missingTimes = 0;
  #firstMissingTime = '';
  readonly #place: () => string;

  /** @param place where the reader stands in the document */
  constructor(place: () => string) {
    this.#place = place;
  }

  /** The next fix starts anew: a segment ended, the receiver paused. */
  breakLine(): void {
    this.#broken = true;
  }

  /**
   * A fix that can't be used. One that says it was none breaks the line. One without any position may be no more than the
   * entry of another sensor: where the times beside it are known, only the time that passed tells whether there was a gap.
   */
  drop(reason: 'missing-position' | 'no-fix' | 'zero-position' | 'invalid-position' | 'entered-position'): void {
    this.issues.note(reason, this.#place);
    if (reason === 'missing-position') this.#unplaced = true;
    else this.#broken = true;
  }

  /**
   * @throws {InputError} `not-finite`, `out-of-range` or `swapped` for a position that is not on the globe
   */
  add(fix: RawFix): void {
    const { lat } = fix;
    let { lon, height, time } = fix;
    if (lon === 0 && lat === 0) {
      this.drop('zero-position');
      return;
    }
    if (!(Math.abs(lon) <= 180 && Math.abs(lat) <= 90)) {
      if (Math.abs(lon) >= MARK_ANGLE && Math.abs(lon) <= 180 && Math.abs(lat) >= MARK_ANGLE && Math.abs(lat) <= 180) {
        this.drop('invalid-position');
        return;
      }
      checkCoordinates(lon, lat, this.#place());
    }
    if (!(lon >= -180 && lon < 180)) {
      lon = wrapLongitude(lon);
      this.issues.note('wrapped-longitude', this.#place);
    }
    if (heightMarks.has(height)) {
      height = Number.NaN;
      this.issues.note('invalid-height', this.#place);
    }
    if (Math.abs(time) > LAST_INSTANT) {
      time = Number.NaN;
      this.issues.note('unreadable-time', this.#place);
    }
    const i = this.count;
    if (i > 0) {
      if (time === this.#lastTime) {
        if (lon === this.#lastLon && lat === this.#lastLat) {
          this.issues.note('repeated-fix', this.#place);
          return;
        }
        this.issues.note('repeated-time', this.#place);
      } else if (time < this.#lastTime) {
        this.issues.note('reversed-time', this.#place);
        if (this.gaps === 'found') this.#broken = true;
      }
    }
    if (this.#unplaced && i > 0 && Number.isNaN(time - this.#lastTime)) this.#broken = true;
    this.#unplaced = false;
    if (Number.isNaN(time) && this.#missingTimes++ === 0) this.#firstMissingTime = this.#place();
    if (this.#broken) this.#gaps.push(i);
    this.#broken = false;
    this.#lon.set(i, lon);
    this.#lat.set(i, lat);
    this.#time.set(i, time);
    this.#height.set(i, height);
    this.#hdop.set(i, fix.hdop);
    this.#satellites.set(i, fix.satellites);
    this.#accuracy.set(i, fix.accuracy);
    this.#lastLon = lon;
    this.#lastLat = lat;
    this.#lastTime = time;
    this.count++;
  }

  /** The recording of what was added; of two fixes at least. */
  build(rest: Pick<Recording, 'name' | 'source' | 'attributes'>): Recording {
    const n = this.count;
    if (n < 2) throw new InputError({ reason: 'too-few', argument: 'data', rule: 'a track of 2 points', value: n });
    const lon = this.#lon.take(n);
    const lat = this.#lat.take(n);
    const time = this.#time.known > 0 ? this.#time.take(n) : undefined;
    const gapBefore = new Uint8Array(n);
    for (const i of this.#gaps) gapBefore[i] = 1;
    if (time) {
      if (this.#missingTimes > 0) this.issues.note('missing-time', () => this.#firstMissingTime, this.#missingTimes);
      if (this.gaps === 'found') findBreaks({ lon, lat, time, gapBefore }, this.issues);
    }
    const column = (name: 'height' | 'hdop' | 'satellites' | 'accuracy', values: FixColumn) =>
      values.known > 0 ? { [name]: values.take(n) } : {};
    return {
      name: rest.name,
      lon,
      lat,
      ...(time ? { time } : {}),
      ...column('height', this.#height),
      ...column('hdop', this.#hdop),
      ...column('satellites', this.#satellites),
      ...column('accuracy', this.#accuracy),
      gapBefore,
      issues: this.issues.list(),
      source: rest.source,
      attributes: rest.attributes,
    };
  }
}

/** A fix of which nothing is known yet, for a reader to fill again and again. */
export function blankFix(): RawFix {
  const none = Number.NaN;
  return { lon: none, lat: none, time: none, height: none, hdop: none, satellites: none, accuracy: none };
}

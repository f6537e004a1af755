import { midnightOf } from '../model';
import { dayShift } from './dayShift';
import { FixColumn } from './FixColumn';
import type { IssueLog } from './IssueLog';
import type { NmeaSentences } from './NmeaSentences';
import { parseDecimal } from './parseDecimal';
import { parseNoted } from './parseNoted';

/** What a sentence says of a position, the worst last. */
export const STATES = ['measured', 'estimated', 'entered', 'none'] as const;

/** What all instants of a log say, in columns; a quality or height that none says is absent. */
export interface EpochColumns {
  readonly count: number;
  readonly lon: Float64Array;
  readonly lat: Float64Array;
  readonly height?: Float64Array;
  readonly hdop?: Float64Array;
  readonly satellites?: Float64Array;
  /** Milliseconds since midnight UTC; NaN when none says. */
  readonly timeOfDay: Float64Array;
  /** Midnight of its date; NaN when none says. */
  readonly date: Float64Array;
  /** The line of its first sentence. */
  readonly line: Float64Array;
  /** Indices of {@link STATES}; NaN for 0. Absent when all were measured. */
  readonly state?: Float64Array;
}

/** Puts the sentences of one instant together. */
export class NmeaEpochs {
  readonly #issues: IssueLog;
  readonly #columns = {
    lon: new FixColumn(),
    lat: new FixColumn(),
    height: new FixColumn(),
    hdop: new FixColumn(),
    satellites: new FixColumn(),
    timeOfDay: new FixColumn(),
    date: new FixColumn(),
    line: new FixColumn(),
    state: new FixColumn(),
  };
  /** Epochs begun, the present one the last. */
  #count = 0;
  /** The sentences that the present one was put together from. */
  readonly #addresses: string[] = [];
  #timeOfDay = Number.NaN;
  #date = Number.NaN;
  /** A date that was stated outside the epoch it is of, and the time of day then. */
  #ahead: { readonly midnight: number; readonly timeOfDay: number } | undefined;
  #line = 0;
  /** How good the sentence is whose position was taken: a sentence with height beats one without. */
  #rank = -1;
  #state = 0;
  #lon = Number.NaN;
  #lat = Number.NaN;
  #height = Number.NaN;
  #hdop = Number.NaN;
  #satellites = Number.NaN;

  constructor(issues: IssueLog) {
    this.#issues = issues;
  }

  /** Takes the present sentence. */
  add(sentence: NmeaSentences): void {
    const f = (index: number) => sentence.field(index);
    switch (sentence.address.slice(2)) {
      case 'RMC': {
        this.#begin(f(0), sentence);
        const date = f(8);
        const midnight = this.#midnight(date.slice(0, 2), date.slice(2, 4), date.slice(4), sentence.line);
        if (!Number.isNaN(midnight)) this.#date = midnight;
        this.#place(1, sentence, 2);
        this.#judge(f(1) === 'V' ? 'N' : f(11));
        break;
      }
      case 'GGA':
        this.#begin(f(0), sentence);
        this.#place(3, sentence, 1);
        this.#judge(({ '0': 'N', '6': 'E', '7': 'M', '8': 'S' } as Record<string, string>)[f(5)]);
        this.#measure(f(6), f(7), f(8));
        break;
      case 'GNS': {
        this.#begin(f(0), sentence);
        this.#place(2, sentence, 1);
        // one letter a system; N only where none of them has a fix
        const modes = f(5);
        this.#judge(/^N+$/.test(modes) ? 'N' : modes.replace(/N/g, '')[0]);
        this.#measure(f(6), f(7), f(8));
        break;
      }
      case 'GLL':
        this.#begin(f(4), sentence);
        this.#place(0, sentence, 0);
        this.#judge(f(5) === 'V' ? 'N' : f(6));
        break;
      case 'ZDA': {
        // states a date, not a position: the date of the epoch that has begun, else of the one that comes next
        const midnight = this.#midnight(f(1), f(2), f(3), sentence.line);
        if (Number.isNaN(midnight)) break;
        const at = timeOfDay(f(0));
        if (this.#count > 0 && this.#timeOfDay === at) this.#date = midnight;
        else if (!Number.isNaN(at)) this.#ahead = { midnight, timeOfDay: at };
        break;
      }
    }
  }

  /** All of them; nothing is left here. */
  take(): EpochColumns {
    if (this.#count > 0) {
      if (Number.isNaN(this.#date)) this.#takeDate();
      this.#keep();
    }
    const count = this.#count;
    const { lon, lat, timeOfDay, date, line, ...optional } = this.#columns;
    const known = (column: FixColumn) => (column.known > 0 ? column.take(count) : undefined);
    return {
      count,
      lon: lon.take(count),
      lat: lat.take(count),
      timeOfDay: timeOfDay.take(count),
      date: date.take(count),
      line: line.take(count),
      height: known(optional.height),
      hdop: known(optional.hdop),
      satellites: known(optional.satellites),
      state: known(optional.state),
    };
  }

  /**
   * Goes on to the epoch that a sentence of this time belongs to: the present one, or a new one. A sentence that the present one
   * has already begins a new one even at the same time: faster receivers than one fix a second may leave out the fraction.
   */
  #begin(time: string, { address, line }: NmeaSentences): void {
    const at = timeOfDay(time);
    if (this.#count > 0) {
      if (this.#timeOfDay === at && !this.#addresses.includes(address)) {
        this.#addresses.push(address);
        return;
      }
      this.#keep();
    }
    this.#count++;
    this.#addresses.length = 0;
    this.#addresses.push(address);
    this.#timeOfDay = at;
    this.#line = line;
    this.#rank = -1;
    this.#state = 0;
    this.#date = this.#lon = this.#lat = this.#height = this.#hdop = this.#satellites = Number.NaN;
    this.#takeDate();
  }

  /** Takes the date that was stated for a time of day near that of the present epoch. */
  #takeDate(): void {
    if (!this.#ahead || Number.isNaN(this.#timeOfDay)) return;
    this.#date = this.#ahead.midnight + dayShift(this.#ahead.timeOfDay, this.#timeOfDay);
    this.#ahead = undefined;
  }

  #keep(): void {
    const columns = this.#columns;
    const i = this.#count - 1;
    columns.lon.set(i, this.#lon);
    columns.lat.set(i, this.#lat);
    columns.height.set(i, this.#height);
    columns.hdop.set(i, this.#hdop);
    columns.satellites.set(i, this.#satellites);
    columns.timeOfDay.set(i, this.#timeOfDay);
    columns.date.set(i, this.#date);
    columns.line.set(i, this.#line);
    if (this.#state > 0) columns.state.set(i, this.#state);
  }

  /** Takes latitude, hemisphere, longitude, hemisphere from a field on. */
  #place(rank: number, sentence: NmeaSentences, from: number): void {
    if (rank <= this.#rank) return;
    const lat = degrees(sentence.field(from), sentence.field(from + 1), 'N', 'S');
    const lon = degrees(sentence.field(from + 2), sentence.field(from + 3), 'E', 'W');
    if (Number.isNaN(lat) || Number.isNaN(lon)) return;
    this.#rank = rank;
    this.#lat = lat;
    this.#lon = lon;
  }

  /** The worst that any sentence of the instant says of it holds. Mode letters of NMEA 0183 2.3 and later. */
  #judge(mode: string | undefined): void {
    const said = mode === 'N' ? 3 : mode === 'M' || mode === 'S' ? 2 : mode === 'E' ? 1 : 0;
    if (said > this.#state) this.#state = said;
  }

  #measure(satellites: string, hdop: string, height: string): void {
    const where = () => `line ${this.#line}`;
    this.#satellites = parseNoted(satellites, 'unreadable-quality', this.#issues, where);
    this.#hdop = parseNoted(hdop, 'unreadable-quality', this.#issues, where);
    this.#height = parseNoted(height, 'unreadable-height', this.#issues, where);
  }

  /** Midnight of a date; NaN where it is none. Years of two digits are from 1980 on, when the system began. */
  #midnight(day: string, month: string, year: string, line: number): number {
    if (day.length !== 2 || month.length !== 2 || !isDigits(day) || !isDigits(month) || !isDigits(year))
      return Number.NaN;
    if (year.length !== 2 && year.length !== 4) return Number.NaN;
    const full = year.length === 4 ? +year : +year >= 80 ? 1900 + +year : 2000 + +year;
    const midnight = midnightOf(full, +month, +day);
    if (Number.isNaN(midnight)) this.#issues.note('unreadable-date', () => `line ${line}`);
    return midnight;
  }
}

function isDigits(text: string, from = 0, to = text.length): boolean {
  for (let at = from; at < to; at++) {
    const code = text.charCodeAt(at);
    if (!(code >= 48 && code <= 57)) return false;
  }
  return true;
}

/** `ddmm.mmmm` with its hemisphere, in degrees. */
function degrees(text: string, hemisphere: string, positive: string, negative: string): number {
  const point = text.indexOf('.');
  const whole = point < 0 ? text.length : point;
  if (whole < 3 || whole > 5 || (hemisphere !== positive && hemisphere !== negative)) return Number.NaN;
  if (!isDigits(text, 0, whole) || !isDigits(text, whole + 1)) return Number.NaN;
  const minutes = parseDecimal(text, whole - 2);
  if (minutes >= 60) return Number.NaN;
  // minutes in one division, so that a whole number of them is exact
  const value = (parseDecimal(text, 0, whole - 2) * 60 + minutes) / 60;
  return hemisphere === negative ? -value : value;
}

/** `hhmmss.sss` in milliseconds. */
function timeOfDay(text: string): number {
  if (text.length < 6 || !isDigits(text, 0, 6) || (text.length > 6 && text[6] !== '.') || !isDigits(text, 7)) {
    return Number.NaN;
  }
  const clock = parseDecimal(text, 0, 6);
  const [hour, minute, second] = [Math.floor(clock / 1e4), Math.floor(clock / 100) % 100, clock % 100];
  if (hour > 23 || minute > 59 || second > 60) return Number.NaN;
  const fraction = text.length > 7 ? parseDecimal(text, 6) : 0;
  return ((hour * 60 + minute) * 60 + second) * 1000 + Math.round(fraction * 1e6) / 1e3;
}

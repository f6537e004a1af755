import { InputError, midnightOf, type Steps } from '../model';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import { nmeaChecksum } from './nmeaChecksum';
import { parseNoted } from './parseNoted';
import type { Reading } from './ReadOptions';
import { blankFix, type RawFix, RecordingBuilder } from './RecordingBuilder';
import { Tracks } from './Tracks';
import { checkSize, gunzip, isGzip } from './unpack';

/** What is known of each instant takes up to 28 times the text. */
const MAX_BYTES = 2 ** 26;

/** Sentences from one rest to the next: a millisecond or two. */
const STRIDE = 1000;

const DAY = 86_400_000;
/** Receivers whose week counter has run over state dates 1024 weeks early. */
const ROLLOVER_DAYS = 1024 * 7;

/** What the sentences of one instant say together. */
interface Epoch {
  readonly fix: RawFix;
  /** The sentences it was put together from. */
  readonly addresses: string[];
  /** Milliseconds since midnight UTC; NaN when none says. */
  readonly timeOfDay: number;
  /** Midnight of its date, where a sentence states one. */
  date: number;
  /** How good the sentence is whose position was taken: a sentence with height beats one without. */
  rank: number;
  state: 'measured' | 'estimated' | 'entered' | 'none';
  readonly line: number;
}

/** The recording of an NMEA 0183 log. */
export function* nmeaTracks(
  data: string | Uint8Array,
  { maxBytes = MAX_BYTES }: Pick<Reading, 'maxBytes'>,
): Steps<ReadFile> {
  const text = latinText(data, maxBytes);
  const fileIssues = new IssueLog();
  const epochs: Epoch[] = [];
  let line = 0;
  let checked = false;
  let sentences = 0;
  for (let from = 0; from < text.length; ) {
    let to = from;
    while (to < text.length && text.charCodeAt(to) !== 10 && text.charCodeAt(to) !== 13) to++;
    const row = text.slice(from, to);
    if (text.charCodeAt(to) === 13 && text.charCodeAt(to + 1) === 10) to++;
    from = to + 1;
    line++;
    if (line % STRIDE === 0) yield { done: Math.min(from, text.length), of: text.length, what: 'read' };
    const place = () => `line ${line}`;
    if (row.trim() === '') continue;
    // a logger may put its own words before the sentence; two sentences may have run together
    const start = row.lastIndexOf('$');
    const match =
      start < 0 ? null : /^\$([A-Z]{2})([A-Z]{3}),([^*]*)(?:\*([0-9A-Fa-f]{2}))?$/.exec(row.slice(start).trimEnd());
    if (!match) {
      if (/^!|\$P/.test(row)) continue; // other kinds of sentence: nothing about positions is lost
      fileIssues.note('not-a-sentence', place);
      continue;
    }
    const [, talker, kind, rest, checksum] = match;
    if (checksum === undefined ? checked : checksum.toUpperCase() !== nmeaChecksum(`${talker}${kind},${rest}`)) {
      fileIssues.note('checksum', place);
      continue;
    }
    if (checksum === undefined) fileIssues.note('unchecked', place);
    else checked = true;
    sentences++;
    readSentence(talker + kind, rest.split(','), epochs, line, fileIssues);
  }
  if (sentences === 0) {
    throw new InputError({
      reason: 'unreadable',
      argument: 'data',
      rule: 'an NMEA 0183 log with a whole sentence',
      value: text,
    });
  }
  const last = { line: 0 };
  const builder = new RecordingBuilder(() => `line ${last.line}`);
  const dates = datesOf(epochs, builder);
  for (const [i, epoch] of epochs.entries()) {
    if (i % STRIDE === STRIDE - 1) yield;
    last.line = epoch.line;
    const place = () => `line ${epoch.line}`;
    if (epoch.state === 'none') builder.drop('no-fix');
    else if (epoch.state === 'entered') builder.drop('entered-position');
    else if (Number.isNaN(epoch.fix.lon) || Number.isNaN(epoch.fix.lat)) builder.drop('missing-position');
    else {
      if (epoch.state === 'estimated') builder.issues.note('estimated-position', place);
      builder.add({ ...epoch.fix, time: dates[i] + epoch.timeOfDay });
    }
  }
  const tracks = new Tracks();
  tracks.add({ builder, source: { format: 'nmea' }, attributes: {} });
  return { tracks, fileIssues };
}

/** Bytes of a log are taken one for one: noise on the line makes them anything. */
function latinText(data: string | Uint8Array, most: number): string {
  if (typeof data === 'string') {
    checkSize(data, most);
    if (data.trim() !== '') return data;
  } else {
    checkSize(data, most);
    const text = new TextDecoder('latin1').decode(isGzip(data) ? gunzip(data, most) : data);
    if (text.trim() !== '') return text;
  }
  throw new InputError({ reason: 'too-few', argument: 'data', rule: 'a document that is not empty', value: data });
}

function readSentence(address: string, f: readonly string[], epochs: Epoch[], line: number, issues: IssueLog): void {
  switch (address.slice(2)) {
    case 'RMC': {
      const epoch = epochAt(f[0], address, epochs, line);
      epoch.date = dateOf(f[8]?.slice(0, 2), f[8]?.slice(2, 4), f[8]?.slice(4), epoch.date, issues, line);
      place(epoch, 1, f[2], f[3], f[4], f[5]);
      judge(epoch, f[1] === 'V' ? 'N' : f[11]);
      break;
    }
    case 'GGA': {
      const epoch = epochAt(f[0], address, epochs, line);
      place(epoch, 3, f[1], f[2], f[3], f[4]);
      judge(epoch, ({ '0': 'N', '6': 'E', '7': 'M', '8': 'S' } as Record<string, string>)[f[5]]);
      measures(epoch, issues, f[6], f[7], f[8]);
      break;
    }
    case 'GNS': {
      const epoch = epochAt(f[0], address, epochs, line);
      place(epoch, 2, f[1], f[2], f[3], f[4]);
      // one letter a system; N only where none of them has a fix
      judge(epoch, /^N+$/.test(f[5] ?? '') ? 'N' : f[5]?.replace(/N/g, '')[0]);
      measures(epoch, issues, f[6], f[7], f[8]);
      break;
    }
    case 'GLL': {
      const epoch = epochAt(f[4], address, epochs, line);
      place(epoch, 0, f[0], f[1], f[2], f[3]);
      judge(epoch, f[5] === 'V' ? 'N' : f[6]);
      break;
    }
    case 'ZDA': {
      // states a date, not a position: only of use to an epoch that has begun
      const epoch = epochs.at(-1);
      if (epoch && epoch.timeOfDay === timeOfDay(f[0])) epoch.date = dateOf(f[1], f[2], f[3], epoch.date, issues, line);
      break;
    }
  }
}

/**
 * The epoch that a sentence of this time belongs to: the present one, or a new one. A sentence that the present one has
 * already begins a new one even at the same time: faster receivers than one fix a second may leave out the fraction.
 */
function epochAt(time: string | undefined, address: string, epochs: Epoch[], line: number): Epoch {
  const at = timeOfDay(time);
  const present = epochs.at(-1);
  if (present && present.timeOfDay === at && !present.addresses.includes(address)) {
    present.addresses.push(address);
    return present;
  }
  const epoch: Epoch = {
    addresses: [address],
    fix: blankFix(),
    timeOfDay: at,
    date: Number.NaN,
    rank: -1,
    state: 'measured',
    line,
  };
  epochs.push(epoch);
  return epoch;
}

function place(epoch: Epoch, rank: number, lat = '', ns = '', lon = '', ew = ''): void {
  const latitude = degrees(lat, ns, 'N', 'S');
  const longitude = degrees(lon, ew, 'E', 'W');
  if (Number.isNaN(latitude) || Number.isNaN(longitude) || rank <= epoch.rank) return;
  epoch.rank = rank;
  epoch.fix.lat = latitude;
  epoch.fix.lon = longitude;
}

/** The worst that any sentence of the instant says of it holds. Mode letters of NMEA 0183 2.3 and later. */
function judge(epoch: Epoch, mode: string | undefined): void {
  const order = ['measured', 'estimated', 'entered', 'none'] as const;
  const said =
    mode === 'N' ? 'none' : mode === 'M' || mode === 'S' ? 'entered' : mode === 'E' ? 'estimated' : 'measured';
  if (order.indexOf(said) > order.indexOf(epoch.state)) epoch.state = said;
}

function measures(epoch: Epoch, issues: IssueLog, satellites = '', hdop = '', height = ''): void {
  const where = () => `line ${epoch.line}`;
  epoch.fix.satellites = parseNoted(satellites, 'unreadable-quality', issues, where);
  epoch.fix.hdop = parseNoted(hdop, 'unreadable-quality', issues, where);
  epoch.fix.height = parseNoted(height, 'unreadable-height', issues, where);
}

/** `ddmm.mmmm` with its hemisphere, in degrees. */
function degrees(text: string, hemisphere: string, positive: string, negative: string): number {
  const match = /^(\d{1,3})(\d\d(?:\.\d*)?)$/.exec(text);
  if (!match || (hemisphere !== positive && hemisphere !== negative) || Number(match[2]) >= 60) return Number.NaN;
  // minutes in one division, so that a whole number of them is exact
  const value = (Number(match[1]) * 60 + Number(match[2])) / 60;
  return hemisphere === negative ? -value : value;
}

function timeOfDay(text = ''): number {
  const match = /^(\d\d)(\d\d)(\d\d)(?:\.(\d*))?$/.exec(text);
  if (!match || +match[1] > 23 || +match[2] > 59 || +match[3] > 60) return Number.NaN;
  return ((+match[1] * 60 + +match[2]) * 60 + +match[3]) * 1000 + Math.round(+`0.${match[4] || 0}` * 1e6) / 1e3;
}

/** Midnight of a date; `before` when it states none. Years of two digits are from 1980 on, when the system began. */
function dateOf(day = '', month = '', year = '', before: number, issues: IssueLog, line: number): number {
  if (!/^\d\d$/.test(day) || !/^\d\d$/.test(month) || !/^(\d\d|\d{4})$/.test(year)) return before;
  const full = year.length === 4 ? +year : +year >= 80 ? 1900 + +year : 2000 + +year;
  const midnight = midnightOf(full, +month, +day);
  if (!Number.isNaN(midnight)) return midnight;
  issues.note('unreadable-date', () => `line ${line}`);
  return before;
}

/** Midnight of each epoch's date: as stated, else carried on from its neighbours over midnight. */
function datesOf(epochs: readonly Epoch[], builder: RecordingBuilder): number[] {
  const dates = epochs.map(({ date }) => date);
  let known = Number.NaN;
  for (let i = 0; i < dates.length; i++) {
    if (Number.isNaN(dates[i])) continue;
    if (known - dates[i] === ROLLOVER_DAYS * DAY || known - dates[i] === (ROLLOVER_DAYS - 1) * DAY) {
      builder.issues.note('week-rollover', () => `line ${epochs[i].line}`);
      dates[i] += ROLLOVER_DAYS * DAY;
    }
    known = dates[i];
  }
  // a counter mended on the way: what stands before it is as early as the week that ran over
  for (let i = dates.length - 1, next = Number.NaN; i >= 0; i--) {
    if (Number.isNaN(dates[i])) continue;
    if (next - dates[i] === ROLLOVER_DAYS * DAY || next - dates[i] === (ROLLOVER_DAYS + 1) * DAY) {
      builder.issues.note('week-rollover', () => `line ${epochs[i].line}`);
      dates[i] += ROLLOVER_DAYS * DAY;
    }
    next = dates[i];
  }
  const first = dates.findIndex((date) => !Number.isNaN(date));
  if (first < 0) {
    if (dates.length === 0) return dates;
    builder.issues.note('no-date', () => `line ${epochs[0].line}`);
    dates[0] = 0;
  }
  /** Days from one time of day to the next: half a day back or on is taken as midnight passed. */
  const midnights = (from: number, to: number) => (to < from - DAY / 2 ? 1 : to > from + DAY / 2 ? -1 : 0);
  for (let i = Math.max(first, 0) - 1; i >= 0; i--) {
    dates[i] = dates[i + 1] - DAY * midnights(epochs[i].timeOfDay, epochs[i + 1].timeOfDay);
  }
  for (let i = 1; i < dates.length; i++) {
    if (Number.isNaN(dates[i])) {
      dates[i] = dates[i - 1] + DAY * midnights(epochs[i - 1].timeOfDay, epochs[i].timeOfDay);
    }
  }
  return dates;
}

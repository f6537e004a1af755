import { InputError, type Steps } from '../model';
import { dayShift } from './dayShift';
import { encodingOf } from './decodeText';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import { type EpochColumns, NmeaEpochs, STATES } from './NmeaEpochs';
import { NmeaSentences } from './NmeaSentences';
import type { Reading } from './ReadOptions';
import { blankFix, RecordingBuilder } from './RecordingBuilder';
import { Tracks } from './Tracks';
import { checkSize, gunzip, isGzip, MAX_BYTES } from './unpack';

/** Sentences from one rest to the next: a millisecond or two. */
const STRIDE = 1000;

const DAY = 86_400_000;
/** Receivers whose week counter has run over state dates 1024 weeks early. */
const ROLLOVER_DAYS = 1024 * 7;

/** The recording of an NMEA 0183 log. */
export function* nmeaTracks(
  data: string | Uint8Array,
  { maxBytes = MAX_BYTES }: Pick<Reading, 'maxBytes'>,
): Steps<ReadFile> {
  const text = latinText(data, maxBytes);
  const fileIssues = new IssueLog();
  const epochs = new NmeaEpochs(fileIssues);
  const log = new NmeaSentences(text);
  const here = () => `line ${log.line}`;
  let checked = false;
  let sentences = 0;
  for (let found = log.next(); found !== 'end'; found = log.next()) {
    if (log.line % STRIDE === 0) yield { done: Math.min(log.at, text.length), of: text.length, what: 'read' };
    if (found === 'noise') fileIssues.note('not-a-sentence', here);
    if (found !== 'sentence') continue;
    if (log.checksum === 'none' ? checked : log.checksum === 'wrong') {
      fileIssues.note('checksum', here);
      continue;
    }
    if (log.checksum === 'none') fileIssues.note('unchecked', here);
    else checked = true;
    sentences++;
    epochs.add(log);
  }
  if (sentences === 0) {
    throw new InputError({
      reason: 'unreadable',
      argument: 'data',
      rule: 'an NMEA 0183 log with a whole sentence',
      value: text,
    });
  }
  const all = epochs.take();
  let i = 0;
  const place = () => `line ${all.line[i]}`;
  const builder = new RecordingBuilder(place);
  completeDates(all, builder.issues);
  const fix = blankFix();
  for (; i < all.count; i++) {
    if (i % STRIDE === STRIDE - 1) yield;
    const state = STATES[all.state?.[i] || 0];
    if (state === 'none') builder.drop('no-fix');
    else if (state === 'entered') builder.drop('entered-position');
    else if (Number.isNaN(all.lon[i])) builder.drop('missing-position');
    else {
      if (state === 'estimated') builder.issues.note('estimated-position', place);
      fix.lon = all.lon[i];
      fix.lat = all.lat[i];
      fix.time = all.date[i] + all.timeOfDay[i];
      for (const key of ['height', 'hdop', 'satellites'] as const) fix[key] = all[key]?.[i] ?? Number.NaN;
      builder.add(fix);
    }
  }
  const tracks = new Tracks();
  tracks.add({ builder, source: { format: 'nmea' }, attributes: {} });
  return { tracks, fileIssues };
}

/** Bytes of a log are taken one for one, as noise on the line makes them anything; but for UTF-16, which terminals save. */
function latinText(data: string | Uint8Array, most: number): string {
  if (typeof data === 'string') {
    checkSize(data, most);
    if (data.trim() !== '') return data;
  } else {
    checkSize(data, most);
    const bytes = isGzip(data) ? gunzip(data, most) : data;
    const encoding = encodingOf(bytes);
    const text = new TextDecoder(encoding.startsWith('utf-16') ? encoding : 'latin1').decode(bytes);
    if (text.trim() !== '') return text;
  }
  throw new InputError({ reason: 'too-few', argument: 'data', rule: 'a document that is not empty', value: data });
}

/** Midnight of each epoch's date: as stated, else carried on from its neighbours over midnight. */
function completeDates({ date: dates, timeOfDay, line }: EpochColumns, issues: IssueLog): void {
  let known = Number.NaN;
  for (let i = 0; i < dates.length; i++) {
    if (Number.isNaN(dates[i])) continue;
    if (known - dates[i] === ROLLOVER_DAYS * DAY || known - dates[i] === (ROLLOVER_DAYS - 1) * DAY) {
      issues.note('week-rollover', () => `line ${line[i]}`);
      dates[i] += ROLLOVER_DAYS * DAY;
    }
    known = dates[i];
  }
  // a counter mended on the way: what stands before it is as early as the week that ran over
  for (let i = dates.length - 1, next = Number.NaN; i >= 0; i--) {
    if (Number.isNaN(dates[i])) continue;
    if (next - dates[i] === ROLLOVER_DAYS * DAY || next - dates[i] === (ROLLOVER_DAYS + 1) * DAY) {
      issues.note('week-rollover', () => `line ${line[i]}`);
      dates[i] += ROLLOVER_DAYS * DAY;
    }
    next = dates[i];
  }
  const first = dates.findIndex((date) => !Number.isNaN(date));
  if (first < 0) {
    if (dates.length === 0) return;
    issues.note('no-date', () => `line ${line[0]}`);
    dates[0] = 0;
  }
  for (let i = Math.max(first, 0) - 1; i >= 0; i--) {
    dates[i] = dates[i + 1] - dayShift(timeOfDay[i], timeOfDay[i + 1]);
  }
  for (let i = 1; i < dates.length; i++) {
    if (Number.isNaN(dates[i])) dates[i] = dates[i - 1] + dayShift(timeOfDay[i - 1], timeOfDay[i]);
  }
}

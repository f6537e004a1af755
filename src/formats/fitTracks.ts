import { InputError, type Steps } from '../model';
import { FitMessages } from './FitMessages';
import { type FitPart, fitParts } from './fitParts';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import type { Reading } from './ReadOptions';
import { blankFix, RecordingBuilder } from './RecordingBuilder';
import { type ReadTrack, Tracks } from './Tracks';
import { checkSize, gunzip, isGzip, MAX_BYTES } from './unpack';
import { writeTime } from './writeTime';

/** Numbers of the messages that say where and when, in the public profile. */
const SESSION = 18;
const LAP = 19;
const RECORD = 20;
const EVENT = 21;

/** Records from one rest to the next: a millisecond or less. */
const STRIDE = 1000;

/** 1989-12-31T00:00Z, from which the protocol counts seconds. */
const EPOCH = 631_065_600_000;
/** 2³¹ semicircles are half a turn. */
const SEMICIRCLE = 180 / 2 ** 31;

/** The recordings of a file, or of several chained: one a session. */
export function* fitTracks(
  data: string | Uint8Array,
  { maxBytes = MAX_BYTES, maxRecordings }: Reading,
): Steps<ReadFile> {
  if (typeof data === 'string') {
    throw new InputError({ reason: 'wrong-type', argument: 'data', rule: 'bytes: FIT is not text', value: data });
  }
  checkSize(data, maxBytes);
  const bytes = isGzip(data) ? gunzip(data, maxBytes) : data;
  if (bytes.length === 0) {
    throw new InputError({ reason: 'too-few', argument: 'data', rule: 'a document that is not empty', value: data });
  }
  const fileIssues = new IssueLog();
  const tracks = new Tracks(maxRecordings);
  let number = 0;
  for (const part of fitParts(bytes, fileIssues)) {
    for (const track of yield* readPart(part, ++number, fileIssues, tracks)) tracks.add(track);
    // two bytes of checksum follow
    yield { done: Math.min(part.at + part.bytes.length + 2, bytes.length), of: bytes.length, what: 'read' };
  }
  return { tracks, fileIssues };
}

interface Session {
  readonly start: number;
  readonly attributes: ReadTrack['attributes'];
}

/** The sessions of a part, one at least, in order of their start: each is written when it is over, or all at the beginning. */
function readSessions({ bytes, at, state }: FitPart, issues: IssueLog, all: Tracks): Session[] {
  const sessions: Session[] = [];
  /** When each lap began. */
  const laps: number[] = [];
  const messages = new FitMessages(bytes, bytes[0]);
  while (messages.next()) {
    const begun = messages.kind === LAP ? messages.unsigned(2, 4) * 1000 + EPOCH : Number.NaN;
    if (!Number.isNaN(begun)) laps.push(begun);
    if (messages.kind !== SESSION) continue;
    all.checkCount(sessions.length + 1);
    const stated = {
      sport: messages.unsigned(5, 1),
      total_elapsed_time: messages.unsigned(7, 4) / 1000,
      // what the receiver itself states: not what its fixes measure
      total_distance: messages.unsigned(9, 4) / 100,
    };
    const attributes = Object.fromEntries(Object.entries(stated).filter(([, value]) => !Number.isNaN(value)));
    sessions.push({ start: messages.unsigned(2, 4) * 1000 + EPOCH, attributes });
  }
  if (state === 'cut off' || messages.end < bytes.length) issues.note('cut-off', () => `byte ${at + messages.end}`);
  sessions.sort((a, b) => a.start - b.start);
  if (sessions.length === 0) sessions.push({ start: Number.NEGATIVE_INFINITY, attributes: {} });
  laps.sort((a, b) => a - b);
  let from = 0;
  return sessions.map(({ start, attributes }, i) => {
    let to = i + 1 < sessions.length ? from : laps.length;
    while (to < laps.length && laps[to] < sessions[i + 1].start) to++;
    const own = laps.slice(from, to).map((time) => writeTime(time, 'lap'));
    from = to;
    return { start, attributes: own.length > 0 ? { ...attributes, 'lap.start_time': own.join(' ') } : attributes };
  });
}

function* readPart(part: FitPart, number: number, issues: IssueLog, all: Tracks): Steps<ReadTrack[]> {
  const sessions = readSessions(part, issues, all);
  yield;
  let record = 0;
  const place = () => `part ${number}, record ${record}`;
  const tracks = sessions.map(({ attributes }): ReadTrack => {
    return { builder: new RecordingBuilder(place), source: { format: 'fit' }, attributes };
  });
  let session = 0;
  const fix = blankFix();
  const messages = new FitMessages(part.bytes, part.bytes[0]);
  while (messages.next()) {
    if (messages.kind === EVENT) {
      // the timer, started, stopped or disabled: from here on another stretch
      if (messages.unsigned(0, 1) === 0 && [0, 1, 4, 8, 9].includes(messages.unsigned(1, 1))) {
        tracks[session].builder.breakLine();
      }
      continue;
    }
    if (messages.kind !== RECORD) continue;
    if (++record % STRIDE === 0) yield;
    fix.time = messages.time * 1000 + EPOCH;
    while (session + 1 < sessions.length && fix.time >= sessions[session + 1].start) session++;
    const { builder } = tracks[session];
    fix.lat = messages.signed(0) * SEMICIRCLE;
    fix.lon = messages.signed(1) * SEMICIRCLE;
    const enhanced = messages.unsigned(78, 4) / 5 - 500;
    fix.height = Number.isNaN(enhanced) ? messages.unsigned(2, 2) / 5 - 500 : enhanced;
    fix.accuracy = messages.unsigned(31, 1);
    if (Number.isNaN(fix.lat) || Number.isNaN(fix.lon)) builder.drop('missing-position');
    else builder.add(fix);
  }
  return tracks;
}

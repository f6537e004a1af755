import type { ParsedRawFitMessage } from 'fit-file-parser';
import { InputError } from '../model';
import { type FitPart, fitParts, wholeFit } from './fitParts';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import type { Reading } from './ReadOptions';
import { blankFix, RecordingBuilder } from './RecordingBuilder';
import { type ReadTrack, Tracks } from './Tracks';
import { checkSize, gunzip, isGzip } from './unpack';

/** The parser's messages take up to 63 times the file; one of a whole day has a tenth of this. */
const MAX_BYTES = 2 ** 25;

/** Numbers of the messages that say where and when, in the public profile. */
const SESSION = 18;
const RECORD = 20;
const EVENT = 21;

/** 1989-12-31T00:00Z, from which the protocol counts seconds. */
const EPOCH = 631_065_600_000;
/** 2³¹ semicircles are half a turn. */
const SEMICIRCLE = 180 / 2 ** 31;

type FitParser = typeof import('fit-file-parser').default;

/** The recordings of a file, or of several chained: one a session. */
export async function fitTracks(data: Uint8Array, { maxBytes = MAX_BYTES, maxRecordings }: Reading): Promise<ReadFile> {
  if (!(data instanceof Uint8Array)) {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'data',
      rule: 'a Uint8Array: FIT is not text',
      value: data,
    });
  }
  checkSize(data, maxBytes);
  const bytes = isGzip(data) ? gunzip(data, maxBytes) : data;
  if (bytes.length === 0) {
    throw new InputError({ reason: 'too-few', argument: 'data', rule: 'a document that is not empty', value: data });
  }
  const fileIssues = new IssueLog();
  const parts = fitParts(bytes, fileIssues);
  const Parser = await loadParser();
  const tracks = new Tracks(maxRecordings);
  parts.forEach((part, i) => {
    for (const track of readPart(parsePart(Parser, part, fileIssues), i + 1)) tracks.add(track);
  });
  return { tracks, fileIssues };
}

async function loadParser(): Promise<FitParser> {
  try {
    return (await import('fit-file-parser')).default;
  } catch {
    throw new InputError({
      reason: 'missing',
      argument: "the optional package 'fit-file-parser'",
      rule: 'installed to read FIT files',
      value: undefined,
      hint: 'npm install fit-file-parser',
    });
  }
}

/** The messages of a part in order. Where the parser refuses one, those before it are kept. */
function parsePart(Parser: FitParser, part: FitPart, issues: IssueLog): readonly ParsedRawFitMessage[] {
  const upTo = (count: number): readonly ParsedRawFitMessage[] | undefined => {
    if (count === 0) return [];
    let messages: readonly ParsedRawFitMessage[] | undefined;
    try {
      // messages as they stand in the file: their order tells pauses, and nothing of theirs is rounded
      new Parser({ force: true, includeRawMessages: [SESSION, RECORD, EVENT], rawMessagesOnly: true }).parse(
        wholeFit(part, part.ends[count - 1]).buffer as ArrayBuffer,
        (error, parsed) => {
          if (!error) messages = parsed?.raw_messages ?? [];
        },
      );
    } catch {
      return undefined;
    }
    return messages;
  };
  const all = upTo(part.ends.length);
  if (all) return all;
  // the parser goes from message to message, so that it takes every piece up to the one it refuses, and none beyond
  let good = 0;
  let bad = part.ends.length;
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (upTo(middle)) good = middle;
    else bad = middle;
  }
  issues.note('cut-off', () => `message ${bad}`);
  return upTo(good) ?? [];
}

function readPart(messages: readonly ParsedRawFitMessage[], part: number): ReadTrack[] {
  const sessions = messages
    .filter(({ global_message_number }) => global_message_number === SESSION)
    .map((message) => ({
      start: numberOf(message, 2, 4) * 1000 + EPOCH,
      attributes: Object.fromEntries(
        [
          ['sport', numberOf(message, 5, 1)] as const,
          ['total_elapsed_time', numberOf(message, 7, 4) / 1000] as const,
          // what the receiver itself states: not what its fixes measure
          ['total_distance', numberOf(message, 9, 4) / 100] as const,
        ].filter(([, value]) => !Number.isNaN(value)),
      ),
    }))
    .sort((a, b) => a.start - b.start);
  let record = 0;
  const place = () => `part ${part}, record ${record}`;
  const tracks = (sessions.length > 0 ? sessions : [{ attributes: {} }]).map(({ attributes }): ReadTrack => {
    return { builder: new RecordingBuilder(place), source: { format: 'fit' }, attributes };
  });
  let session = 0;
  for (const message of messages) {
    if (message.global_message_number === EVENT) {
      // the timer, started, stopped or disabled: from here on another stretch
      if (numberOf(message, 0, 1) === 0 && [0, 1, 4, 8, 9].includes(numberOf(message, 1, 1))) {
        tracks[session].builder.breakLine();
      }
      continue;
    }
    if (message.global_message_number !== RECORD) continue;
    record++;
    const fix = blankFix();
    const seconds = message.compressed_timestamp ?? numberOf(message, 253, 4);
    fix.time = seconds * 1000 + EPOCH;
    while (session + 1 < sessions.length && fix.time >= sessions[session + 1].start) session++;
    const { builder } = tracks[session];
    fix.lat = numberOf(message, 0, 4, 'signed') * SEMICIRCLE;
    fix.lon = numberOf(message, 1, 4, 'signed') * SEMICIRCLE;
    const enhanced = numberOf(message, 78, 4) / 5 - 500;
    fix.height = Number.isNaN(enhanced) ? numberOf(message, 2, 2) / 5 - 500 : enhanced;
    fix.accuracy = numberOf(message, 31, 1);
    if (Number.isNaN(fix.lat) || Number.isNaN(fix.lon)) builder.drop('missing-position');
    else builder.add(fix);
  }
  return tracks;
}

/** An integer field; NaN where the message has none of that size, or the protocol's mark for no value. */
function numberOf(message: ParsedRawFitMessage, number: number, size: 1 | 2 | 4, kind?: 'signed'): number {
  const field = message.fields.find(({ field_definition_number }) => field_definition_number === number);
  if (field?.raw_value.length !== size) return Number.NaN;
  const bytes = message.little_endian ? field.raw_value : [...field.raw_value].reverse();
  let value = 0;
  for (let i = size - 1; i >= 0; i--) value = value * 256 + bytes[i];
  const limit = 256 ** size;
  if (kind !== 'signed') return value === limit - 1 ? Number.NaN : value;
  if (value === limit / 2 - 1) return Number.NaN;
  return value >= limit / 2 ? value - limit : value;
}

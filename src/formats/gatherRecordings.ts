import { InputError, type Recordings, type Steps } from '../model';
import type { IssueLog } from './IssueLog';
import type { Tracks } from './Tracks';

/** What a reader found in a file. */
export interface ReadFile {
  readonly tracks: Tracks;
  /** What was left out or mended outside the tracks. */
  readonly fileIssues: IssueLog;
  /** A hint for when nothing usable was found. */
  readonly hint?: string;
}

/** The recordings of a file that is read in steps. */
export function* gatherSteps(reading: Steps<ReadFile>, name?: string): Steps<Recordings> {
  return gatherRecordings(yield* reading, name);
}

/**
 * The recordings of one file: tracks of fewer than 2 usable fixes are left out, which the issues say; each recording gets
 * its name and the issues of the file as a whole.
 *
 * @throws {InputError} `too-few` when nothing is left
 */
export function gatherRecordings({ tracks, fileIssues, hint }: ReadFile, name?: string): Recordings {
  const whole = tracks.whole.map(({ track }) => track);
  fileIssues.take(tracks.issues);
  if (tracks.short > 0) fileIssues.note('too-short', () => `track ${tracks.firstShort}`, tracks.short);
  if (whole.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'data',
      rule: 'a recording of at least 2 points with a position',
      value: tracks.shortFixes,
      hint: [fileIssues.sentence(), hint].filter(Boolean).join('. ') || undefined,
    });
  }
  const shared = fileIssues.list();
  const recordings = whole.map((track, i) => {
    const own =
      name === undefined
        ? track.name?.trim()
          ? track.name
          : `track ${i + 1}`
        : whole.length === 1
          ? name
          : `${name} ${i + 1}`;
    const recording = track.builder.build({ name: own, source: track.source, attributes: track.attributes });
    return shared.length === 0 ? recording : { ...recording, issues: [...recording.issues, ...shared] };
  });
  return recordings as Recordings;
}

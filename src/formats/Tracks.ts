import { InputError, type Recording } from '../model';
import { IssueLog } from './IssueLog';
import type { RecordingBuilder } from './RecordingBuilder';

/** One track of a file as a reader leaves it. */
export interface ReadTrack {
  readonly builder: RecordingBuilder;
  /** What the file calls it. */
  readonly name?: string;
  readonly source: Recording['source'];
  readonly attributes: Recording['attributes'];
}

/** A file of more recordings than this is an attack or an accident: each is held with columns of its own. */
const MAX_TRACKS = 10_000;

/** The tracks of a file; those of fewer than 2 usable fixes are only counted, so that they take no room. */
export class Tracks {
  readonly whole: { readonly track: ReadTrack; readonly number: number }[] = [];
  /** What was dropped or mended in those left out. */
  readonly issues = new IssueLog();
  /** How many were left out, and the usable fixes in them. */
  short = 0;
  shortFixes = 0;
  /** Number of the first one left out, counted from 1. */
  firstShort = 0;

  /** @param most - how many whole ones there may be */
  constructor(readonly most = MAX_TRACKS) {}

  /** How many there were. */
  get count(): number {
    return this.whole.length + this.short;
  }

  /**
   * Takes a track that is read to its end.
   *
   * @throws {InputError} `too-large` for more whole ones than there may be
   */
  add(track: ReadTrack): void {
    const number = this.count + 1;
    if (track.builder.count >= 2) {
      this.checkCount(this.whole.length + 1);
      this.whole.push({ track, number });
      return;
    }
    if (this.short === 0) this.firstShort = number;
    this.short++;
    this.shortFixes += track.builder.count;
    this.issues.take(track.builder.issues);
  }

  /** @throws {InputError} `too-large` */
  checkCount(count: number): void {
    if (count <= this.most) return;
    const rule = `a document of up to ${this.most} recordings`;
    const hint = 'The option maxRecordings sets the limit';
    throw new InputError({ reason: 'too-large', argument: 'data', rule, value: count, hint });
  }
}

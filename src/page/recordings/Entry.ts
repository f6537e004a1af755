import type { Recording } from 'datumline';

/** One line of the table: a recording, or a file that gave none. */
export interface Entry {
  readonly id: number;
  /** The file's name, with folders where they are known. */
  readonly path: string;
  /** Null where a test names a file that wasn't there. */
  readonly file: Blob | null;
  /** Which track, where the file has several. */
  readonly track?: string;
  readonly recording: Recording | null;
  /** Why there is no recording. */
  readonly fault: string | null;
  /** What would help. */
  readonly asks: 'zone' | 'nothing';
  /** Zone that its times were read in, where they state none. */
  readonly zone?: string;
  readonly receiver: string;
  readonly placement: string;
  readonly run: string;
  readonly notes?: string;
  /** Who said receiver and run: a guess gives way to better ones. */
  readonly by: 'guess' | 'hand';
}

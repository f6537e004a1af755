/** One line of `--ndjson` in. */
export interface LineTask {
  readonly command: 'assess' | 'snap';
  readonly text: string;
  /** Counted from 1. */
  readonly number: number;
  /** Zone of times that state none, unless the line has its own. */
  readonly zone?: string;
  /** Whether `assess` answers with all that it found, or with what `combine` needs of it. */
  readonly figures: 'all' | 'for combine';
}

/** One line of `--ndjson` out. */
export interface LineAnswer {
  readonly text: string;
  readonly outcome: 'found' | 'failed';
}

import type { NumberedLine } from './linesIn';

/** One line of `--ndjson` in. */
export interface LineTask extends NumberedLine {
  readonly command: 'assess' | 'snap';
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

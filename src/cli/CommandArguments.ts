/** What a command is called with, its options checked for their kind only. */
export interface CommandArguments {
  readonly files: readonly string[];
  readonly out?: string;
  readonly zone?: string;
  readonly threads?: number;
  /** The receiver that alone the others are compared with. */
  readonly baseline?: string;
  readonly ndjson: 'each line' | 'off';
  /** Whether times of day are written where positions are. */
  readonly times: 'relative' | 'absolute';
}

/** What a command is called with, its options checked for their kind only. */
export interface CommandArguments {
  readonly files: readonly string[];
  readonly out?: string;
  readonly zone?: string;
  readonly threads?: number;
  /** The receiver that alone the others are compared with. */
  readonly baseline?: string;
  /** Pictures to publish, and how they are drawn. */
  readonly pictures?: 'svg' | 'png';
  readonly theme?: 'light' | 'dark';
  readonly width?: number;
  readonly ndjson: 'each line' | 'off';
}

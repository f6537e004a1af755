/** What a command is called with, its options checked for their kind only. */
export interface CommandArguments {
  readonly files: readonly string[];
  readonly out?: string;
  readonly zone?: string;
  /** The file with the line travelled. */
  readonly route?: string;
  /** Whether a file that is there already may be replaced. */
  readonly overwrite: 'allowed' | 'refused';
  /** Which figures the table of them has in a row. */
  readonly table: 'long' | 'wide';
  /** Whether the page is offered by a server. */
  readonly serve: 'on this machine' | 'no';
  /** Whether every fix is written with its place. */
  readonly fixes: 'written' | 'none';
  readonly threads?: number;
  /** The file with the recording that knows the true place by the second. */
  readonly truth?: string;
  /** The file with the areas that recordings are judged by, and that with what is drawn under them. */
  readonly areas?: string;
  readonly surroundings?: string;
  /** The receiver that alone the others are compared with. */
  readonly baseline?: string;
  /** Pictures to publish, and how they are drawn. */
  readonly pictures?: 'svg' | 'png';
  readonly theme?: 'light' | 'dark';
  readonly width?: number;
  /** Whether the files are recordings to draft a route from. */
  readonly draft: 'from recordings' | 'none';
  readonly ndjson: 'each line' | 'off';
  /** Whether answers hold all that was found, or what `combine` needs of it. */
  readonly figures: 'all' | 'for combine';
  /** Whether times of day are written where positions are. */
  readonly times: 'relative' | 'absolute';
}

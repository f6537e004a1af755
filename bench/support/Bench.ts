/** One line of the speed table. */
export interface BenchRow {
  /** What was done, with its size: `hausdorff, 10 000 × 10 000`. */
  readonly what: string;
  /** Median time of ours, with its unit in the text: `412 ns`. */
  readonly ours: string;
  /** What is promised, as a plain sentence part: `≤ 1 µs`. */
  readonly promise?: string;
  /**
   * Whether the promise held in this run; `as a ratio` when this machine is slower than the one the promise was made on,
   * and ours beside a peer's time is what it was to be there.
   */
  readonly held?: boolean | 'as a ratio';
  /** The same work by peers in the same run. */
  readonly peers?: readonly { readonly name: string; readonly time: string; readonly error?: string }[];
  /** Largest error of ours against the exact value, beside the time. */
  readonly error?: string;
  /** A sentence with figures of this row and of rows beside it, for docs/speed.md between the markers of that name. */
  readonly says?: { readonly marker: string; readonly text: string };
}

/** A bench file exports one of these as `run`. */
export type Bench = (options: { readonly smoke: boolean }) => BenchRow[] | Promise<BenchRow[]>;

/** One line of the speed table. */
export interface BenchRow {
  /** What was done, with its size: `hausdorff, 10 000 × 10 000`. */
  readonly what: string;
  /** Median time of ours, with its unit in the text: `412 ns`. */
  readonly ours: string;
  /** What is promised, as a plain sentence part: `≤ 1 µs`. */
  readonly promise?: string;
  /** Whether the promise held in this run. */
  readonly held?: boolean;
  /** The same work by peers in the same run. */
  readonly peers?: readonly { readonly name: string; readonly time: string; readonly error?: string }[];
  /** Largest error of ours against the exact value, beside the time. */
  readonly error?: string;
}

/** A bench file exports one of these as `run`. */
export type Bench = (options: { readonly smoke: boolean }) => BenchRow[] | Promise<BenchRow[]>;

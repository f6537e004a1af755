/** One line of the growth table: a job at a size, ten times that and a hundred times that. */
export interface GrowthCase {
  /** What is called, by its name as a user writes it: `hausdorff`, `indexRoute.nearest`. */
  readonly of: string;
  /** What it is given, `n` standing for the size: `zigzags of n vertices`. */
  readonly input: string;
  /** Whether it is what users have, or the worst that was thought of. */
  readonly kind: 'easy' | 'hostile';
  /** The smallest size. */
  readonly least: number;
  /** Times ten that are tried: 2, unless what the largest takes is known to be beyond waiting for. */
  readonly decades?: 1 | 2;
  /** Makes the input, which isn't timed, and returns the job, which is. */
  readonly make: (n: number) => () => unknown;
  /** The exponent that its docstring admits to, and the words in which it does. */
  readonly stated?: { readonly exponent: number; readonly says: string };
}

/** Times that grow with a greater power of the size must be stated in the docstring. */
export const MOST = 1.2;

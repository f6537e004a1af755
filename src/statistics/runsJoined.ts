/** What runs say between them of a figure, joined with what each foretells of itself. */
export interface RunsJoined {
  /** Variance of the figure's mean over the runs, as tests take it. */
  readonly variance: number;
  /** What it is likely to be: the factor never below 1 is caution, and what is foretold is a little more than there is. */
  readonly scatter: number;
  readonly degrees: number;
}

/** Of what is foretold, so much is there where runs don't differ: what is foretold leans to caution. By simulation. */
const LIKELY = 0.75;

/**
 * The variance of a mean over runs: what the runs foretell of it from within, times by how much their spread exceeds that.
 * Never less than foretold, however well a few runs agree by chance.
 *
 * The degrees of freedom are 2(R − 1) + 1 where others in the same section tell of the conditions too, (R − 1) + 1 where none
 * does: what is foretold counts as one run's worth, and others' excess as much as the figure's own.
 *
 * @param foretold mean over the runs of the variance foretold of one
 * @param excess variance between runs over what was foretold: the figure's own first, then those of others in the section
 *
 * @see Birge, The calculation of errors by the method of least squares, Phys. Rev. 40 (1932) 207, for a factor never below
 * 1; which degrees hold was simulated: `bench/verdicts.ts`
 */
export function runsJoined(runs: number, foretold: number, excess: readonly number[]): RunsJoined {
  const mean = excess.reduce((sum, one) => sum + one / excess.length, 0);
  const factor = Math.max(1, excess[0], mean);
  return {
    variance: (factor * foretold) / runs,
    scatter: (Math.max(LIKELY, mean) * foretold) / runs,
    degrees: (excess.length > 1 ? 2 : 1) * (runs - 1) + 1,
  };
}

/** A mutant that no test can notice, and why. */
interface Equivalent {
  readonly line: string;
  readonly becomes: string;
  readonly why: string;
}

/** The files whose mutants are counted, each with those that change nothing that it promises. */
export const equivalent: Record<string, readonly Equivalent[]> = {
  'src/metrics/FreeSpace.ts': [],
  'src/route/offsetLine.ts': [],
  'src/statistics/meanInterval.ts': [],
  'src/statistics/effectiveSamples.ts': [],
  'src/geodesy/interception.ts': [],
  'src/snap/LatticeStates.ts': [],
  'src/snap/likeliestPath.ts': [],
};

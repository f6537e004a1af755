/** Below this share of a stretch, figures would speak of another one. */
const LEAST_COVERAGE = 0.5;

/** Whether a row's figures can stand beside others. */
export function coveredEnough({ coverage }: { readonly coverage: number }): boolean {
  return coverage >= LEAST_COVERAGE;
}

import { coveredEnough } from './coveredEnough';

/** The closest first; last those that covered less than half of the stretch, whatever their figures. */
export function byCloseness<Row extends { readonly coverage: number; readonly meanAbsolute: number | null }>(
  rows: readonly Row[],
): Row[] {
  return [...rows].sort(
    (a, b) =>
      Number(coveredEnough(b)) - Number(coveredEnough(a)) ||
      (a.meanAbsolute ?? Infinity) - (b.meanAbsolute ?? Infinity),
  );
}

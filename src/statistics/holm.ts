/**
 * p-values made fit for being looked at together: with a limit of 0.05 on the adjusted ones, no true tie among all of them
 * is called a difference more than 5 % of the time.
 *
 * @see Holm, A simple sequentially rejective multiple test procedure, Scand. J. Statist. 6 (1979)
 */
export function holm(pValues: readonly (number | null)[]): (number | null)[] {
  const order = pValues.flatMap((p, i) => (p === null ? [] : [{ p, i }])).sort((a, b) => a.p - b.p);
  const adjusted: (number | null)[] = pValues.map(() => null);
  let least = 0;
  order.forEach(({ p, i }, rank) => {
    least = Math.max(least, Math.min(1, (order.length - rank) * p));
    adjusted[i] = least;
  });
  return adjusted;
}

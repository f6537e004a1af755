/**
 * Whether a difference between two receivers could as well be one between the places they were worn at: one of them was
 * always at the same place, and the other was not always there too.
 *
 * @param placements of the first and of the second, run by run; null where unstated
 */
export function isConfounded(placements: readonly (readonly [first: string | null, second: string | null])[]): boolean {
  if (placements.length === 0 || placements.some(([first, second]) => first === null || second === null)) return false;
  const firsts = new Set(placements.map(([first]) => first));
  const seconds = new Set(placements.map(([, second]) => second));
  if (firsts.size > 1 && seconds.size > 1) return false;
  return placements.some(([first, second]) => first !== second);
}

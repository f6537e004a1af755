/**
 * Whether a difference between two receivers could as well be one between the places they were worn at: one of them was
 * always at the same place, and the other was not always there too. Runs in which a place is unstated say nothing.
 *
 * @param placements of the first and of the second, run by run; null where unstated
 */
export function isConfounded(placements: readonly (readonly [first: string | null, second: string | null])[]): boolean {
  const stated = placements.filter(([first, second]) => first !== null && second !== null);
  const firsts = new Set(stated.map(([first]) => first));
  const seconds = new Set(stated.map(([, second]) => second));
  if (firsts.size > 1 && seconds.size > 1) return false;
  return stated.some(([first, second]) => first !== second);
}

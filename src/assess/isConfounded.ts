/** Where two receivers were worn in one run; null where unstated. */
export interface WornAt {
  readonly first: string | null;
  readonly second: string | null;
}

/**
 * Whether a difference between two receivers could as well be one between the places they were worn at: one of them was
 * always at the same place, and the other was not always there too. Runs in which a place is unstated say nothing.
 *
 * @param placements - run by run
 */
export function isConfounded(placements: readonly WornAt[]): boolean {
  const stated = placements.filter(({ first, second }) => first !== null && second !== null);
  const firsts = new Set(stated.map(({ first }) => first));
  const seconds = new Set(stated.map(({ second }) => second));
  if (firsts.size > 1 && seconds.size > 1) return false;
  return stated.some(({ first, second }) => first !== second);
}

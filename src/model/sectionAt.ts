import type { Route, Section } from './Route';

/**
 * The section of a route that holds a place, given as metres along the route; of several in one another the innermost, see
 * {@link sectionsAt}; `undefined` outside all sections and for NaN.
 */
export function sectionAt(route: Pick<Route, 'sections'>, alongTrack: number): Section | undefined {
  return sectionsAt(route, alongTrack)[0];
}

/**
 * Every section of a route that holds a place, the shortest first: the innermost of those in one another.
 *
 * A section holds its beginning and not its end, which belongs to the section that begins there; where none does, to those
 * that end there. Each call looks at all sections.
 */
export function sectionsAt({ sections }: Pick<Route, 'sections'>, alongTrack: number): Section[] {
  const holding = sections.filter(({ from, to }) => alongTrack >= from && alongTrack < to);
  const found =
    holding.length > 0 ? holding : sections.filter(({ from, to }) => alongTrack >= from && alongTrack === to);
  return found.sort((a, b) => a.to - a.from - (b.to - b.from) || b.from - a.from);
}

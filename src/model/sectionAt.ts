import type { Route, Section } from './Route';

/**
 * The section of a route that holds a place, given as metres along the route; `undefined` outside all sections and for
 * NaN.
 *
 * A section holds its beginning and not its end, which belongs to the section that begins there; where none does, to the
 * one that ends there.
 */
export function sectionAt({ sections }: Pick<Route, 'sections'>, alongTrack: number): Section | undefined {
  return (
    sections.find(({ from, to }) => alongTrack >= from && alongTrack < to) ??
    sections.filter(({ from, to }) => alongTrack >= from && alongTrack === to).at(-1)
  );
}

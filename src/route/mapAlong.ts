import type { Route } from './Route';

type Stretches = Pick<Route, 'sections' | 'marks' | 'arcs' | 'provenance' | 'warnings'>;

/**
 * Everything a route says of its stretches, carried to another route made of it.
 *
 * @param map - Along-track on the other route for an along-track on this one.
 * @param kept - First and last along-track on this route that the other has; stretches keep their part of it.
 */
export function mapAlong(
  route: Stretches,
  map: (alongTrack: number) => number,
  [first, last]: readonly [number, number],
): Stretches {
  const carry = <T extends { readonly from: number; readonly to: number }>(
    stretches: readonly T[],
    shorten: (stretch: T, share: number) => T = (stretch) => stretch,
  ): T[] =>
    stretches
      .flatMap((stretch) => {
        const [from, to] = [Math.max(stretch.from, first), Math.min(stretch.to, last)];
        // A stretch without length stays where it is inside, and is gone with its place.
        if (from > to || (from === to && stretch.from !== stretch.to)) return [];
        const ends = [map(from), map(to)].sort((a, b) => a - b);
        const share = from === to ? 1 : (to - from) / (stretch.to - stretch.from);
        return [{ ...shorten(stretch, share), from: ends[0], to: ends[1] }];
      })
      .sort((a, b) => a.from - b.from || a.to - b.to);
  return {
    sections: carry(route.sections),
    marks: route.marks
      .filter(({ alongTrack }) => alongTrack >= first && alongTrack <= last)
      .map((mark) => ({ ...mark, alongTrack: map(mark.alongTrack) }))
      .sort((a, b) => a.alongTrack - b.alongTrack),
    arcs: carry(route.arcs, (arc, share) => ({ ...arc, length: arc.length * share })),
    provenance: carry(route.provenance),
    warnings: carry(route.warnings),
  };
}

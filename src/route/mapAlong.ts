import type { Route } from '../model';

type Stretches = Pick<Route, 'sections' | 'marks' | 'arcs' | 'laps' | 'provenance'>;

/** How along-track on one route becomes along-track on another that is made of it. */
export type AlongMap = (alongTrack: number) => number;

/**
 * Stretches carried from one route to another.
 *
 * @param kept - First and last along-track of the old route that the new one has; stretches keep their part of it.
 * @param shorten - What else changes in a stretch of which only a share is kept.
 */
export function mapStretches<T extends { readonly from: number; readonly to: number }>(
  stretches: readonly T[],
  map: AlongMap,
  [first, last]: readonly [number, number],
  shorten: (stretch: T, share: number) => T = (stretch) => stretch,
): T[] {
  return stretches
    .flatMap((stretch) => {
      const [from, to] = [Math.max(stretch.from, first), Math.min(stretch.to, last)];
      // A stretch without length stays where it is inside, and is gone with its place.
      if (from > to || (from === to && stretch.from !== stretch.to)) return [];
      const ends = [map(from), map(to)].sort((a, b) => a - b);
      const share = from === to ? 1 : (to - from) / (stretch.to - stretch.from);
      return [{ ...shorten(stretch, share), from: ends[0], to: ends[1] }];
    })
    .sort((a, b) => a.from - b.from || a.to - b.to);
}

/** Everything a route says of its places and stretches, save warnings, carried to another. */
export function mapAlong(route: Stretches, map: AlongMap, kept: readonly [number, number]): Stretches {
  const [first, last] = kept;
  return {
    sections: mapStretches(route.sections, map, kept),
    marks: route.marks
      .filter(({ alongTrack }) => alongTrack >= first && alongTrack <= last)
      .map((mark) => ({ ...mark, alongTrack: map(mark.alongTrack) }))
      .sort((a, b) => a.alongTrack - b.alongTrack),
    arcs: mapStretches(route.arcs, map, kept, (arc, share) => ({ ...arc, length: arc.length * share })),
    laps: mapStretches(route.laps, map, kept, (laps, share) => ({ ...laps, count: laps.count * share })),
    provenance: mapStretches(route.provenance, map, kept),
  };
}

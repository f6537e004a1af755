import { wrapLongitude } from '../geodesy';
import type { Route, Section } from '../model';
import { offsetLine } from './offsetLine';
import { sliceColumns } from './sliceColumns';

/** A line beside a route, longitudes within [-180, 180), and where along the route each of its positions lies, in metres. */
export interface SectionEdge {
  readonly lon: readonly number[];
  readonly lat: readonly number[];
  readonly alongTrack: readonly number[];
  /** Metres beside the route: less than the half width where bends leave no room for an edge so far inside them. */
  readonly metres: number;
}

/** Metres: beside a shorter section there is no edge worth drawing, and round its end nothing of it might be left. */
const SHORTEST = 0.05;

/**
 * The left and the right edge of a section's corridor, round corners and trimmed inside them as `offsetRoute` does;
 * undefined where the section states no half width or is shorter than 5 cm.
 */
export function sectionEdges(
  route: Route,
  { from, to, halfWidth }: Section,
): { readonly left: SectionEdge; readonly right: SectionEdge } | undefined {
  if (halfWidth === undefined || !(to - from >= SHORTEST)) return undefined;
  const { lon, lat, alongTrack } = sliceColumns(route, from, to);
  const line = Array.from(lon, (value, i) => [wrapLongitude(value), lat[i]]);
  const edge = (side: 'left' | 'right'): SectionEdge => {
    const { vertices, source, metres } = offsetLine(line, side, halfWidth);
    return {
      lon: vertices.map(([value]) => wrapLongitude(value)),
      lat: vertices.map(([, value]) => value),
      alongTrack: source.map((at) => {
        const i = Math.min(Math.floor(at), alongTrack.length - 2);
        return from + alongTrack[i] + (at - i) * (alongTrack[i + 1] - alongTrack[i]);
      }),
      metres,
    };
  };
  return { left: edge('left'), right: edge('right') };
}

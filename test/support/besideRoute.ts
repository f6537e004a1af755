import type { Recording, Route } from 'datumline';
import { placeBeside } from './simulateRun';

/** One fix of a recording made to measure: where along the route, how far right of it, and when. */
export interface FixBeside {
  readonly along: number;
  readonly right: number;
  /** Seconds since the first. */
  readonly seconds: number;
  readonly gap?: boolean;
}

/** A recording whose every fix lies at a stated place beside the route. */
export function besideRoute(route: Route, name: string, fixes: readonly FixBeside[], timed = true): Recording {
  const places = fixes.map(({ along, right }) => placeBeside(route, along, right));
  const begun = Date.UTC(2031, 4, 6, 7);
  return {
    name,
    lon: Float64Array.from(places, ([lon]) => lon),
    lat: Float64Array.from(places, ([, lat]) => lat),
    ...(timed ? { time: Float64Array.from(fixes, ({ seconds }) => begun + 1000 * seconds) } : {}),
    gapBefore: Uint8Array.from(fixes, ({ gap }, i) => (i === 0 || gap ? 1 : 0)),
    issues: [],
    source: { format: 'gpx' },
    attributes: {},
  };
}

/** Fixes at a steady 3 m a second over a stretch, one a second, so far right of it. */
export function steadyFixes(
  { from, to }: { from: number; to: number },
  right: (along: number) => number,
  begin = 0,
): FixBeside[] {
  const fixes: FixBeside[] = [];
  for (let along = from, seconds = begin; along <= to; along += 3, seconds++) {
    fixes.push({ along, right: right(along), seconds });
  }
  return fixes;
}

import { Geodesic, unwrapLongitude, WGS84 } from '../geodesy';
import { checkChoice, checkOptions, checkRoute, InputError, type Route } from '../model';
import { derivedRecipe } from './derivedRecipe';
import { mapAlong } from './mapAlong';
import { SAME_POINT } from './Piece';
import { nameApart } from './placeSections';
import { carriedWarnings, withWarnings } from './withWarnings';

/** Options of {@link joinRoutes}. */
export interface JoinRoutesOptions {
  /** What to do where the second starts elsewhere than the first ends: a straight line between, or refuse. @defaultValue 'line' */
  readonly gap?: 'line' | 'refuse';
}

/** Metres: a gap up to here is how closely two lines are drawn, above it is worth a warning or a refusal. */
const GAP = 0.01;

/**
 * Two routes as one, the second after the first. Sections of the second that share name and lap with one before are
 * numbered: "bridge (2)".
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60]]);
 * joinRoutes(sliceRoute(route, 0, 100), sliceRoute(route, 100, 250)).length // → 250.000000
 *
 * @throws {InputError} `misplaced` for a gap over 1 cm that is to be refused
 */
export function joinRoutes(a: Route, b: Route, options: JoinRoutesOptions = {}): Route {
  checkRoute(a, 'a');
  checkRoute(b, 'b');
  checkOptions(options, { gap: true });
  const { gap = 'line' } = options;
  checkChoice(gap, 'options.gap', ['line', 'refuse']);
  const end = a.lon.length - 1;
  const apart = WGS84.Inverse(a.lat[end], a.lon[end], b.lat[0], b.lon[0], Geodesic.DISTANCE).s12!;
  if (gap === 'refuse' && apart > GAP) {
    throw new InputError({
      reason: 'misplaced',
      argument: 'start of the second route',
      rule: `at the end of the first, ${apart.toFixed(3)} m away`,
      value: [b.lon[0], b.lat[0]],
    });
  }
  const same = apart <= SAME_POINT;
  const bridge = same ? 0 : apart;
  const skip = same ? 1 : 0;
  const turns = unwrapLongitude(b.lon[0], a.lon[end]) - b.lon[0];
  const concat = (first: Float64Array, second: Float64Array, more = 0) => {
    const out = new Float64Array(first.length + second.length - skip);
    out.set(first);
    out.set(second.subarray(skip), first.length);
    if (more !== 0) for (let i = first.length; i < out.length; i++) out[i] += more;
    return out;
  };
  const offset = a.length + bridge;
  const length = offset + b.length;
  const moved = (at: number) => offset + at;
  const first = mapAlong(a, (at) => at, [0, a.length]);
  const second = mapAlong(b, moved, [0, b.length]);
  const name = a.name ?? b.name;
  const joined = {
    ...(name === undefined ? {} : { name }),
    lon: concat(a.lon, b.lon, turns),
    lat: concat(a.lat, b.lat),
    alongTrack: concat(a.alongTrack, b.alongTrack, offset),
    length,
    sections: nameApart([...first.sections, ...second.sections]),
    marks: [...first.marks, ...second.marks],
    arcs: [...first.arcs, ...second.arcs],
    laps: [...first.laps, ...second.laps],
    provenance: [...first.provenance, ...second.provenance],
    lateral95: concat(a.lateral95, b.lateral95),
    recipe: derivedRecipe({
      call: 'join',
      recipes: [a.recipe, b.recipe],
      ...(options.gap === undefined ? {} : { gap }),
    }),
  };
  const message = `The second line starts ${apart.toFixed(2)} m from the end of the first; a straight line joins them.`;
  return withWarnings(joined, () => [
    ...carriedWarnings(a, (at) => at, [0, a.length]),
    ...(apart > GAP ? [{ reason: 'bridged-gap' as const, from: a.length, to: offset, message }] : []),
    ...carriedWarnings(b, moved, [0, b.length]),
  ]);
}

import { checkRoute, checkShape, InputError, type Route, routeHash } from '../model';
import { followingShapes } from './followingShapes';
import { type Follower, followerOn, SAVED_VERSION, type SavedFollower } from './followRoute';
import { preparedRoute } from './PreparedRoute';

/**
 * A follower that goes on where another had come to, in another process if need be: it answers every later fix as that would
 * have.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60]]);
 * const follower = followRoute(route);
 * follower.push({ position: [5.001, 60], time: 0 });
 * const saved = JSON.stringify(follower.save());
 * resumeFollowing(route, JSON.parse(saved)).push({ position: [5.002, 60], time: 9000 }).located // → { alongTrack: 111.6… }
 * resumeFollowing(routeFromLine([[5, 60], [5.02, 60]]), JSON.parse(saved)) // throws misplaced: saved.route must be
 * resumeFollowing(route, { version: 2 }) // throws wrong-type: saved.version must be 1
 *
 * @param saved - What {@link Follower.save} gave, as it was or read from JSON.
 * @throws {InputError} what is no such thing, of another route (`misplaced`), or of another version
 * @remarks It is held to be what this library wrote as far as that keeps every answer finite, not beyond: whoever can change
 * it can put the body elsewhere.
 */
export function resumeFollowing(route: Route, saved: SavedFollower): Follower {
  checkRoute(route);
  if (typeof saved === 'object' && saved !== null) checkShape(saved.version, versionShape, {}, 'saved.version');
  checkShape(saved, '#saved', followingShapes, 'saved');
  const hash = routeHash(route);
  if (saved.route !== hash) {
    const rule = `${hash}, the hash of the route`;
    throw new InputError({ reason: 'misplaced', argument: 'saved.route', rule, value: saved.route });
  }
  checkNumbering(saved, preparedRoute(route).bins.count, route.lon.length - 1);
  const { lag, sigma, maxDistance } = saved.options;
  const options = { lag: lag ?? Infinity, sigma: sigma ?? undefined, maxDistance: maxDistance ?? undefined };
  return followerOn(route, options, saved);
}

const versionShape = { oneOf: [SAVED_VERSION] } as const;

/** Refuses numbers of bins, states, knots, fixes and segments that name none. */
function checkNumbering(saved: SavedFollower, bins: number, segments: number): void {
  const whole = (value: number, argument: string, min: number, end: number) => {
    if (Number.isInteger(value) && value >= min && value < end) return;
    const rule = `a whole number from ${min} up to ${end - 1}`;
    throw new InputError({ reason: 'out-of-range', argument: `saved.${argument}`, rule, value });
  };
  const long = (column: readonly unknown[], argument: string, length: number) => {
    if (column.length === length) return;
    const value = column.length;
    throw new InputError({ reason: 'out-of-range', argument: `saved.${argument} length`, rule: `${length}`, value });
  };
  /** Whole numbers that rise. */
  const rising = (values: readonly number[], argument: string, end: number) => {
    values.forEach((value, i) => {
      whole(value, `${argument}[${i}]`, i > 0 ? values[i - 1] + 1 : 0, end);
    });
  };
  const { count, sigma, state, states, knots, open, settled, kept, options, knot } = saved;
  whole(count, 'count', 0, Number.MAX_SAFE_INTEGER);
  long(sigma.aside, 'sigma.aside', sigma.bin.length);
  whole(sigma.waiting, 'sigma.waiting', 0, sigma.bin.length + 1);
  sigma.bin.forEach((bin, i) => {
    whole(bin, `sigma.bin[${i}]`, 0, bins);
  });
  whole(state.last, 'state.last', 0, count + 1);
  rising(states.bin, 'states.bin', bins);
  for (const key of ['x', 'y', 'z', 'skip', 'best', 'sum'] as const)
    long(states[key], `states.${key}`, states.bin.length);
  whole(states.heaviest, 'states.heaviest', -1, bins);
  // a knot has states that weigh something, and the other way round
  if (states.bin.length > 0) {
    if (knot === null) throw new InputError({ reason: 'missing', argument: 'saved.knot', rule: 'given', value: knot });
    for (const key of ['best', 'sum'] as const) {
      if (states[key].some((weight) => weight > 0)) continue;
      const rule = 'numbers one of which is above 0';
      throw new InputError({ reason: 'out-of-range', argument: `saved.states.${key}`, rule, value: states[key] });
    }
  }
  whole(knots.first, 'knots.first', 0, Number.MAX_SAFE_INTEGER);
  knots.list.forEach(({ bin, came, lowest, highest }, k) => {
    rising(bin, `knots.list[${k}].bin`, bins);
    long(came, `knots.list[${k}].came`, bin.length);
    whole(lowest, `knots.list[${k}].lowest`, -bins, 1);
    whole(highest, `knots.list[${k}].highest`, 0, bins + 1);
    const before = k > 0 ? knots.list[k - 1].bin.length : Number.MAX_SAFE_INTEGER;
    came.forEach((from, i) => {
      whole(from, `knots.list[${k}].came[${i}]`, -1, before);
    });
  });
  const last = knots.list.at(-1);
  if (last) long(last.bin, 'knots.list.at(-1).bin', states.bin.length);
  else if (options.lag !== null) long(states.bin, 'states.bin', 0);
  rising(
    open.map(({ index }) => index),
    'open index',
    count,
  );
  open.forEach((fix, i) => {
    // without a knot there is nothing to be on
    const first = last === undefined || fix.state === 'before' || fix.state === 'unplaced' ? -1 : knots.first;
    whole(fix.knot, `open[${i}].knot`, first, knots.first + knots.list.length);
  });
  settled.forEach(({ segment }, i) => {
    if (segment !== undefined) whole(segment, `settled[${i}].segment`, 0, segments);
  });
  const fixes = options.lag === null ? count : 0;
  for (const key of ['lon', 'lat', 'time', 'gapBefore'] as const) long(kept[key], `kept.${key}`, fixes);
}

import {
  assess,
  bufferShare,
  combine,
  direct,
  directedHausdorff,
  discreteFrechet,
  frechet,
  hausdorff,
  InputError,
  indexRoute,
  inverse,
  joinRoutes,
  pointAt,
  pointToSegment,
  type Route,
  reverseRoute,
  routeFromRecipe,
  sliceRoute,
  snap,
  withinFrechet,
} from 'datumline';
import type { Position } from 'geojson';
import { schemaJudge } from '../support/schemaJudge';
import type { Dice } from './Dice';
import { anyRecording, anyRoute } from './extremes';

/** Metres that two ways to one number may lie apart. */
const NEAR = 1e-5;

const judges = new Map<string, ReturnType<typeof schemaJudge>>();
function schemaFault(name: 'assessment' | 'recipe' | 'testSummary', document: unknown): string | undefined {
  const judge = judges.get(name) ?? schemaJudge(name);
  judges.set(name, judge);
  const [fault] = judge(document);
  return fault && `${name} against its schema: ${fault}`;
}

/** A wandering line of some metres to some kilometres, and another near it. */
function twoLines(dice: Dice): [Position[], Position[]] {
  const start: Position = [dice.pick([5, 179.9999, -0.0001]), dice.pick([60, 0, -45])];
  const step = 10 ** dice.integer(-2, 3);
  const wander = (aside: number) => {
    let at = direct(start, dice.between(0, 360), aside).position;
    let azimuth = dice.between(0, 360);
    return dice.list(2, 14, () => {
      azimuth += dice.pick([0, 5, 60, 180]);
      at = dice.chance(0.1) ? at : direct(at, azimuth, dice.roll() * step).position;
      return at;
    });
  };
  const first = wander(0);
  const second = dice.chance(0.5)
    ? wander(step * dice.roll())
    : first.map((at) => direct(at, dice.between(0, 360), step * 0.05 * dice.roll()).position);
  return [first, second];
}

function measures(dice: Dice): string | undefined {
  const [a, b] = twoLines(dice);
  const near = (scale: number) => NEAR + 1e-9 * scale;
  const [ab, ba] = [directedHausdorff(a, b).distance, directedHausdorff(b, a).distance];
  const both = hausdorff(a, b).distance;
  const continuous = frechet(a, b);
  const discrete = discreteFrechet(a, b);
  const most = near(discrete);
  if (Math.max(ab, ba) !== both) return `directed ${ab} and ${ba}, hausdorff ${both}`;
  if (hausdorff(b, a).distance !== both) return `hausdorff ${both} and the other way ${hausdorff(b, a).distance}`;
  if (!(both <= continuous + most)) return `hausdorff ${both}, frechet ${continuous}`;
  if (!(continuous <= discrete + most)) return `frechet ${continuous}, discrete ${discrete}`;
  if (Math.abs(frechet(b, a) - continuous) > most) return `frechet ${continuous} and the other way ${frechet(b, a)}`;
  if (Math.abs(discreteFrechet(b, a) - discrete) > most)
    return `discrete ${discrete} and the other way ${discreteFrechet(b, a)}`;
  if (!withinFrechet(a, b, continuous + most)) return `not within its frechet ${continuous}`;
  if (continuous > most && withinFrechet(a, b, continuous - most)) return `within less than its frechet ${continuous}`;
  const share = bufferShare(a, b, ab + NEAR);
  if (!(share >= 1 - 1e-9)) return `a share of ${share} within the directed distance`;
  return undefined;
}

function near(route: Route, dice: Dice, reach: number): Position {
  const at = pointAt(route, dice.roll() * route.length).position;
  return direct(at, dice.between(0, 360), dice.roll() * reach).position;
}

function places(dice: Dice): string | undefined {
  const route = anyRoute(dice);
  const point = near(route, dice, dice.pick([1e-6, 1, 50, 900]));
  const found = indexRoute(route).nearest(point)!;
  let least = Infinity;
  const wrapped = (lon: number) => ((((lon + 180) % 360) + 360) % 360) - 180;
  for (let i = 1; i < route.lon.length; i++) {
    const [from, to] = [i - 1, i].map((k) => [wrapped(route.lon[k]), route.lat[k]]);
    least = Math.min(least, pointToSegment(point, from, to).distance);
  }
  if (Math.abs(found.distance - least) > NEAR) return `nearest at ${found.distance}, by scan at ${least}`;
  if (!(Math.abs(found.crossTrack) <= found.distance))
    return `cross-track ${found.crossTrack}, distance ${found.distance}`;
  if (!(found.alongTrack >= 0 && found.alongTrack <= route.length))
    return `along-track ${found.alongTrack} of ${route.length}`;
  const there = pointAt(route, found.alongTrack).position;
  if (Math.abs(inverse(point, there).distance - found.distance) > NEAR)
    return `the foot is ${inverse(point, there).distance} off, the distance ${found.distance}`;
  return undefined;
}

function derived(dice: Dice): string | undefined {
  const route = anyRoute(dice);
  const back = reverseRoute(route);
  if (Math.abs(back.length - route.length) > NEAR) return `reversed ${back.length}, not ${route.length}`;
  const again = routeFromRecipe(JSON.parse(JSON.stringify(route.recipe)));
  if (again.length !== route.length || again.lon.length !== route.lon.length)
    return `from its recipe ${again.length}, not ${route.length}`;
  const at = route.length * dice.between(0.01, 0.99);
  try {
    const [first, second] = [sliceRoute(route, 0, at), sliceRoute(route, at, route.length)];
    const whole = joinRoutes(first, second);
    if (Math.abs(whole.length - route.length) > 2 * NEAR) return `cut and joined ${whole.length}, not ${route.length}`;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
  }
  return schemaFault('recipe', route.recipe);
}

function placed(dice: Dice): string | undefined {
  const route = anyRoute(dice);
  const recording = anyRecording(dice, route);
  const { alongTrack, crossTrack, distance, state, segment, confidence } = snap(route, recording);
  for (let i = 0; i < state.length; i++) {
    const told = `fix ${i}, ${state[i]}`;
    if (Number.isNaN(alongTrack[i])) {
      if (state[i] === 'on') return `${told}: no along-track`;
      continue;
    }
    if (!(Math.abs(crossTrack[i]) <= distance[i] || Number.isNaN(distance[i])))
      return `${told}: cross-track ${crossTrack[i]}, distance ${distance[i]}`;
    if (state[i] === 'on' && !(alongTrack[i] >= 0 && alongTrack[i] <= route.length))
      return `${told}: along-track ${alongTrack[i]} of ${route.length}`;
    if (segment[i] < -1 || segment[i] > route.lon.length - 2) return `${told}: segment ${segment[i]}`;
    if (!(confidence[i] >= 0 && confidence[i] <= 1)) return `${told}: confidence ${confidence[i]}`;
  }
  return undefined;
}

function documents(dice: Dice): string | undefined {
  const route = anyRoute(dice);
  const runs = dice.integer(1, 2);
  const made = Array.from({ length: runs }, (_, run) =>
    assess(
      route,
      dice.list(1, 2, (i) => ({
        recording: { ...anyRecording(dice, route), name: `r${i}` },
        receiver: `r${i}`,
        run: `${run}`,
      })),
    ),
  );
  for (const one of made) {
    const fault = schemaFault('assessment', one);
    if (fault) return fault;
    for (const { recording, section, meanAbsolute, interval95 } of one.rows) {
      if (
        meanAbsolute !== null &&
        interval95 &&
        !(interval95[0] <= meanAbsolute + 1e-9 && meanAbsolute <= interval95[1] + 1e-9)
      ) {
        return `${recording} ${section}: mean ${meanAbsolute} outside ${interval95}`;
      }
    }
  }
  return schemaFault('testSummary', combine(made));
}

/** The last takes a tenth of a second. */
const kinds = [
  ...Array(60).fill(measures),
  ...Array(60).fill(places),
  ...Array(30).fill(derived),
  ...Array(30).fill(placed),
  documents,
] as readonly ((dice: Dice) => string | undefined)[];

/** What must hold of any two lines, any point and route, any recording: nothing, or what doesn't hold. */
export function invariantCase(dice: Dice): { readonly name: string; readonly fault?: string } {
  const check = dice.pick(kinds);
  try {
    return { name: check.name, fault: check(dice) };
  } catch (error) {
    if (error instanceof InputError) return { name: check.name };
    const { stack = String(error) } = error as Error;
    return { name: check.name, fault: stack.split('\n').slice(0, 4).join(' | ') };
  }
}

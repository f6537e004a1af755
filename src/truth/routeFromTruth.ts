import type { Position } from 'geojson';
import { localPlane, thinLine, wrapLongitude } from '../geodesy';
import {
  checkNumber,
  checkOptions,
  checkRecording,
  checkString,
  InputError,
  type OptionKeys,
  type RecipeStep,
  type Recording,
  type Route,
} from '../model';
import { routeFromRecipe } from '../route';

/** Options of {@link routeFromTruth}. */
export interface RouteFromTruthOptions {
  /** No fix that is kept of the way lies further from the line than this, in metres. @defaultValue 0.1 */
  readonly tolerance?: number;
  /** What the route is called. @defaultValue as the recording */
  readonly name?: string;
}

const optionKeys: OptionKeys<RouteFromTruthOptions> = { tolerance: true, name: true };

/** Metres: steps shorter than this, or than twice the stated accuracy, may be jitter. */
const LEAST_STEP = 0.3;

/** Metres of way below which a change of accuracy makes no leg of its own. */
const SHORTEST_LEG = 20;

/**
 * The route that a survey-grade recording travelled, as an authored one: stops and jitter taken out, thinned, each leg as well
 * known as the recording states (`accuracy`, taken as 95 %, rounded up to a power of two of a centimetre).
 *
 * Fixes follow each other in the order of the file; times are not asked. A fix nearer to the last one kept than 0.3 m or
 * twice its accuracy is jitter: a stop becomes one place. Where the recording is broken the line goes straight on, by a leg
 * that states no uncertainty and says that it bridges a gap.
 *
 * @example
 * const walk = readCsv('lon,lat\n' + Array.from({ length: 90 }, (_, i) => [5 + Math.min(i, 60) / 20000, 60].join()).join('\n'), { name: 'survey' })[0]
 * const route = routeFromTruth({ ...walk, accuracy: new Float64Array(90).fill(0.05) })
 * route.length // → 167.40…
 * route.lateral95[0] // → 0.08
 *
 * @throws {InputError} no recording, or one that moves nowhere (`too-few`); an option out of its range
 */
export function routeFromTruth(truth: Recording, options: RouteFromTruthOptions = {}): Route {
  checkRecording(truth, 'truth');
  checkOptions(options, optionKeys);
  const { tolerance = 0.1, name = truth.name } = options;
  checkNumber(tolerance, 'options.tolerance', { above: 0 });
  checkString(name, 'options.name');
  const steps: RecipeStep[] = [];
  let last: Position | undefined;
  for (const piece of piecesOf(truth)) {
    const positions = piece.map(({ position }) => position);
    if (last !== undefined) {
      steps.push(
        { call: 'provenance', source: `a straight line across a gap of the recording “${truth.name}”` },
        { call: 'follow', line: [last, positions[0]] },
      );
    }
    for (const { from, to, lateral95 } of legsOf(piece)) {
      const leg = positions.slice(from, to + 1);
      const plane = localPlane(leg[Math.floor(leg.length / 2)]);
      const places = leg.map((position) => plane.toPlane(position));
      const kept = thinLine(
        places.map(([east]) => east),
        places.map(([, north]) => north),
        tolerance,
      );
      steps.push(
        {
          call: 'provenance',
          ...(lateral95 === undefined ? {} : { lateral95 }),
          source: `the recording “${truth.name}”`,
        },
        { call: 'follow', line: kept.map((i) => leg[i]) },
      );
    }
    last = positions.at(-1);
  }
  if (last === undefined) {
    const rule = 'a recording that moves: 2 fixes further apart than jitter';
    throw new InputError({ reason: 'too-few', argument: 'truth', rule, value: truth.lon.length });
  }
  return routeFromRecipe({ version: 1, options: name === '' ? {} : { name }, steps });
}

/** A fix kept of the way. */
interface WayFix {
  readonly position: Position;
  /** Metres from the one before. */
  readonly step: number;
  /** Metres (95 %); NaN where unstated. */
  readonly accuracy: number;
}

/** The unbroken stretches of a recording that move, without stops and jitter. */
function piecesOf({ lon, lat, accuracy, gapBefore }: Recording): WayFix[][] {
  const pieces: WayFix[][] = [];
  let piece: WayFix[] = [];
  let plane: ReturnType<typeof localPlane> | undefined;
  const end = () => {
    if (piece.length > 1) pieces.push(piece);
    piece = [];
  };
  for (let i = 0; i < lon.length; i++) {
    if (gapBefore[i] === 1) end();
    if (!(Number.isFinite(lon[i]) && Math.abs(lat[i]) <= 90)) continue;
    const position: Position = [wrapLongitude(lon[i]), lat[i]];
    const stated = accuracy?.[i] ?? Number.NaN;
    const step = piece.length > 0 ? Math.hypot(...plane!.toPlane(position)) : 0;
    if (piece.length > 0 && !(step > Math.max(LEAST_STEP, 2 * (stated || 0)))) continue;
    piece.push({ position, step, accuracy: stated >= 0 ? stated : Number.NaN });
    plane = localPlane(position);
  }
  end();
  return pieces;
}

/** Stretches of one accuracy class, by index of their first and last fix; neighbours share one. */
function legsOf(piece: readonly WayFix[]): { from: number; to: number; lateral95: number | undefined }[] {
  // the worse of an edge's two ends
  const classOf = (i: number) => Math.max(roundedUp(piece[i - 1].accuracy), roundedUp(piece[i].accuracy));
  const legs: { from: number; to: number; lateral95: number | undefined; metres: number }[] = [];
  for (let i = 1; i < piece.length; i++) {
    const known = classOf(i);
    const lateral95 = Number.isNaN(known) ? undefined : known;
    const open = legs.at(-1);
    if (open && open.lateral95 === lateral95) {
      open.to = i;
      open.metres += piece[i].step;
    } else legs.push({ from: i - 1, to: i, lateral95, metres: piece[i].step });
  }
  // what is short takes the worse of its own and its neighbour's
  for (let k = 1; k < legs.length; ) {
    const [before, leg] = [legs[k - 1], legs[k]];
    if (Math.min(before.metres, leg.metres) >= SHORTEST_LEG) {
      k++;
      continue;
    }
    const lateral95 =
      before.lateral95 === undefined || leg.lateral95 === undefined
        ? undefined
        : Math.max(before.lateral95, leg.lateral95);
    legs.splice(k - 1, 2, { from: before.from, to: leg.to, lateral95, metres: before.metres + leg.metres });
    k = Math.max(1, k - 1);
  }
  return legs;
}

/** So that an accuracy that flickers makes few legs: the next power of two of a centimetre. */
function roundedUp(accuracy: number): number {
  return accuracy > 0 ? 0.01 * 2 ** Math.ceil(Math.log2(accuracy / 0.01) - 1e-9) : accuracy === 0 ? 0.01 : Number.NaN;
}

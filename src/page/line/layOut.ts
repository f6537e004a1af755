import { pointAt, type RecipeStep, type Route, routeFromRecipe } from 'datumline';
import type { Position } from 'geojson';
import type { Drawing } from './Drawing';
import { isFixed } from './isFixed';
import { stepsIn } from './stepsIn';

/** A drawing and what was built of it. */
export interface LaidOut {
  readonly drawing: Drawing;
  readonly route: Route;
  /** Where on the route each step that draws begins and ends, metres along-track, by its key; in laps at the first pass. */
  readonly places: ReadonlyMap<string, { readonly from: number; readonly to: number }>;
  /** Where each step that draws ends before any corner is rounded, by its key. */
  readonly ends: ReadonlyMap<string, Position>;
}

/** No name begins with it that a hand typed. */
const PROBE = '\u0001';

const DRAWS: readonly RecipeStep['call'][] = [
  'start',
  'lineTo',
  'lineBy',
  'arc',
  'follow',
  'moveOver',
  'uTurn',
  'laps',
  'outAndBack',
];

/** Metres between vertices where only the ends of legs are asked for. */
const SPARSE = 1e6;

/**
 * The route of a drawing, and where each of its steps came to lie. The key of a step is its path joined with dots.
 *
 * A mark after each step tells its place: built again with marks, which move nothing, and once more without rounding where a
 * step ends elsewhere than it says itself.
 *
 * @throws {InputError} as `routeFromRecipe`
 */
export function layOut(drawing: Drawing): LaidOut {
  const route = routeFromRecipe(drawing);
  const places = new Map<string, { from: number; to: number }>();
  const ends = new Map<string, Position>();
  if (isFixed(drawing)) return { drawing, route, places, ends };
  const marks = marksOf(routeFromRecipe(probed(drawing, drawing.options)));
  const sharp = drawing.steps.every(({ call }) => call === 'start' || call === 'lineTo' || !DRAWS.includes(call))
    ? undefined
    : routeFromRecipe(probed(drawing, { ...drawing.options, cornerRadius: 0, maxSpacing: SPARSE }));
  const sharpMarks = sharp && marksOf(sharp);
  let at = 0;
  const place = (steps: readonly RecipeStep[], outer: string) => {
    for (const [i, step] of steps.entries()) {
      if (!DRAWS.includes(step.call)) continue;
      const key = `${outer}${i}`;
      const from = at;
      place(stepsIn(step), `${key}.`);
      at = marks.get(key) ?? at;
      places.set(key, { from, to: at });
      if (step.call === 'start' || step.call === 'lineTo') ends.set(key, step.position);
      else if (sharp && sharpMarks?.has(key)) ends.set(key, pointAt(sharp, sharpMarks.get(key)!).position);
    }
  };
  place(drawing.steps, '');
  return { drawing, route, places, ends };
}

/** Only what draws, each step with a mark after it that bears its key. */
function probed(drawing: Drawing, options: Drawing['options']): Drawing {
  const within = (steps: readonly RecipeStep[], outer: string): RecipeStep[] =>
    steps.flatMap((step, i): RecipeStep[] => {
      if (!DRAWS.includes(step.call)) return [];
      const key = `${outer}${i}`;
      const whole =
        step.call === 'laps' || step.call === 'outAndBack' ? { ...step, steps: within(step.steps, `${key}.`) } : step;
      return [whole, { call: 'mark', name: PROBE + key }];
    });
  return { ...drawing, options, steps: within(drawing.steps, '') };
}

/** Metres along-track of the first pass of each probe. */
function marksOf({ marks }: Route): ReadonlyMap<string, number> {
  const first = new Map<string, number>();
  for (const { name, alongTrack } of marks) {
    const key = name.slice(PROBE.length);
    if (!first.has(key)) first.set(key, alongTrack);
  }
  return first;
}

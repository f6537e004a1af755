import type { LabelBox } from './labelBox';
import type { Point } from './routePlane';

/** Pixels between a point and its label from which on a line leads from one to the other. */
const LED = 10;

/** Where on the edge of its label the line from a point ends; null where the label lies close enough to need none. */
export function leaderTo(at: Point, { left, right, top, bottom }: LabelBox): Point | null {
  const edge: Point = [Math.min(right, Math.max(left, at[0])), Math.min(bottom, Math.max(top, at[1]))];
  return Math.hypot(edge[0] - at[0], edge[1] - at[1]) < LED ? null : edge;
}

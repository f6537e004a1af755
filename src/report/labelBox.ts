import type { Point } from './routePlane';

/** What something takes of a picture, in pixels. */
export interface LabelBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The box about a point that reaches so far to the sides, up and down. */
export function boxAbout([x, y]: Point, aside: number, upright = aside): LabelBox {
  return { left: x - aside, right: x + aside, top: y - upright, bottom: y + upright };
}

/** Whether two boxes share more than an edge. */
export function overlap(a: LabelBox, b: LabelBox): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

import { boxAbout, type LabelBox, overlap } from './labelBox';
import type { Point } from './routePlane';

/** Something to write near a point of a picture. */
export interface WantedLabel {
  /** What it belongs to. */
  readonly at: Point;
  readonly width: number;
  readonly height: number;
  /** Direction it would rather lie in. */
  readonly towards?: Point;
}

/** Where a label's middle comes to lie; null where it would cover something. */
export type LabelPlace = Point | null;

/** Pixels from its point that a label lies at most. */
const FURTHEST = 60;

/** Pixels between a label and what it must not touch. */
const AIR = 2;

/**
 * Places labels one after the other, the first having the first choice: near its point, in the frame, over no other label
 * and over as little of the lines as can be.
 *
 * @param crossed - points of the lines: each that a label covers makes that place worse
 * @param must - whether a label without a free place is left out, or set where it covers least
 */
export function placeLabels(
  wanted: readonly WantedLabel[],
  frame: { readonly width: number; readonly height: number },
  crossed: readonly Point[],
  taken: readonly LabelBox[] = [],
  must: 'leave out' | 'set anyhow' = 'leave out',
): LabelPlace[] {
  const boxes = [...taken];
  const inFrame = crossed.filter(
    (point) => point[0] > 0 && point[0] < frame.width && point[1] > 0 && point[1] < frame.height,
  );
  return wanted.map(({ at, width, height, towards }) => {
    // no place that is tried covers what is further away
    const [wide, high] = [FURTHEST + width + AIR, FURTHEST + height + AIR];
    const around = inFrame.filter((point) => Math.abs(point[0] - at[0]) <= wide && Math.abs(point[1] - at[1]) <= high);
    let best: { place: Point; cost: number; box: LabelBox } | undefined;
    for (const distance of [4, 12, 24, 40, FURTHEST]) {
      for (let k = 0; k < 16; k++) {
        const angle = (k * Math.PI) / 8;
        const direction: Point = [Math.cos(angle), Math.sin(angle)];
        const place: Point = [
          at[0] + direction[0] * (distance + width / 2),
          at[1] + direction[1] * (distance + height / 2),
        ];
        const box = boxAbout(place, width / 2 + AIR, height / 2 + AIR);
        if (box.left < 0 || box.top < 0 || box.right > frame.width || box.bottom > frame.height) continue;
        const overlaps = boxes.filter((other) => overlap(box, other)).length;
        if (overlaps > 0 && must === 'leave out') continue;
        let covered = 0;
        for (const point of around) {
          if (point[0] > box.left && point[0] < box.right && point[1] > box.top && point[1] < box.bottom) covered++;
        }
        const turned = towards ? 1 - (direction[0] * towards[0] + direction[1] * towards[1]) : 0;
        const cost = 1000 * overlaps + 6 * covered + distance / 2 + 8 * turned;
        if (!best || cost < best.cost) best = { place, cost, box };
      }
    }
    if (!best) return null;
    boxes.push(best.box);
    return best.place;
  });
}

import { boxAbout, type LabelBox, overlap } from './labelBox';
import { leaderTo } from './leaderTo';
import type { Point } from './routePlane';

/** Something to write near a point of a picture. */
export interface WantedLabel {
  /** What it belongs to. */
  readonly at: Point;
  readonly width: number;
  readonly height: number;
  /** Direction it would rather lie in. */
  readonly towards?: Point;
  /** Whether it may lie over a line where there is no better place, or be led to over one or over a label. @defaultValue 'may' */
  readonly lines?: 'may' | 'must not';
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
  return wanted.map(({ at, width, height, towards, lines }) => {
    // no place that is tried covers what is further away
    const [wide, high] = [FURTHEST + width + AIR, FURTHEST + height + AIR];
    const around = inFrame.filter((point) => Math.abs(point[0] - at[0]) <= wide && Math.abs(point[1] - at[1]) <= high);
    const reach = boxAbout(at, wide + width / 2, high + height / 2);
    const near = boxes.filter((other) => overlap(reach, other));
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
        const turned = towards ? 1 - (direction[0] * towards[0] + direction[1] * towards[1]) : 0;
        const least = distance / 2 + 8 * turned;
        if (best && least >= best.cost) continue;
        const overlaps = near.filter((other) => overlap(box, other)).length;
        if (overlaps > 0 && must === 'leave out') continue;
        let covered = 0;
        for (const point of around) {
          if (point[0] > box.left && point[0] < box.right && point[1] > box.top && point[1] < box.bottom) covered++;
        }
        if (lines === 'must not' && (covered > 0 || hides(leaderSpots(at, box), at, near, around))) continue;
        const cost = 1000 * overlaps + 6 * covered + least;
        if (!best || cost < best.cost) best = { place, cost, box };
      }
    }
    if (!best) return null;
    boxes.push(best.box);
    if (lines === 'must not') boxes.push(...leaderSpots(at, best.box).map((spot) => boxAbout(spot, 1)));
    return best.place;
  });
}

/** Places every few pixels along the line that leads to a label. */
function leaderSpots(at: Point, box: LabelBox): Point[] {
  const end = leaderTo(at, box);
  if (end === null) return [];
  const count = Math.ceil(Math.hypot(end[0] - at[0], end[1] - at[1]) / 3);
  return Array.from({ length: count }, (_, i) => {
    const share = (i + 1) / count;
    return [at[0] + share * (end[0] - at[0]), at[1] + share * (end[1] - at[1])] as const;
  });
}

/** Whether a leader goes through a label or, where it has left its own place, over a line. */
function hides(leader: readonly Point[], at: Point, boxes: readonly LabelBox[], line: readonly Point[]): boolean {
  const start = boxAbout(at, 1);
  const others = boxes.filter((box) => !overlap(start, box));
  return leader.some((spot, i) => {
    const about = boxAbout(spot, 1.5);
    return (
      others.some((box) => overlap(about, box)) ||
      (i > 1 && line.some((point) => Math.abs(point[0] - spot[0]) < 2.5 && Math.abs(point[1] - spot[1]) < 2.5))
    );
  });
}

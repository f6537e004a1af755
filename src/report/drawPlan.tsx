import { describePlace } from './describePlace';
import { drawGround } from './drawGround';
import { drawKey } from './drawKey';
import { element } from './element';
import { linePath } from './linePath';
import { boxAround, type MapBox, type MapFrame, mapFrame } from './mapFrame';
import type { Picture } from './Picture';
import { planLabels } from './planLabels';
import type { PlanLines } from './planLines';
import { strandLooks } from './receiverLooks';
import type { Place, ReportModel } from './reportModel';
import type { Point, RoutePlane } from './routePlane';
import { routeSpots } from './routeSpots';
import { showAlong, showList } from './showFigures';
import type { SurroundingCredit } from './surroundingCredit';
import { wrappedLines } from './wrappedLines';

/** Pixels of the words that say whose the surroundings are, and from line to line. */
const CREDIT = { size: 11, line: 14 };

/** What of a plan to draw. */
export interface PlanView {
  readonly width: number;
  readonly title: string;
  /** Metres east and north; the whole route when absent. */
  readonly box?: MapBox;
  readonly places: readonly Place[];
  /** Names of sections and marks, start and finish. */
  readonly names: 'all' | 'none';
  readonly key: 'below' | 'none';
  /** Printed below everything, where the surroundings are in a picture by themselves. */
  readonly credit?: SurroundingCredit;
  /** Of the finished picture, in pixels as it is drawn. @defaultValue 1 */
  readonly pixel?: number;
  /** Pixels. */
  readonly limits?: { readonly least: number; readonly most: number };
}

/** The route seen from above at its true scale, with what was recorded beside it. */
export function drawPlan(model: ReportModel, plane: RoutePlane, lines: PlanLines, view: PlanView): Picture {
  const { route, strands } = model;
  const { width, title } = view;
  const whole = boxAround(plane.line, 0);
  const size = Math.max(whole.east - whole.west, whole.north - whole.south);
  const box = view.box ?? boxAround(plane.line, Math.max(30, 0.05 * size));
  const frame = mapFrame(box, width, view.limits ?? { least: 0.4 * width, most: 1.05 * width });
  const inside = near(frame);

  const routeLine = pathThrough([plane.line], frame, inside);
  const walk = routeSpots(plane, route.length, frame);
  const crossed = walk.x.map((x, i): Point => [x, walk.y[i]]);
  const clipped = (
    <svg width={width} height={frame.height} viewBox={`0 0 ${width} ${frame.height}`} overflow="hidden">
      {drawGround(lines.ground, frame, view.pixel)}
      {lines.corridor.map((edge) => {
        const { west, south, east, north } = boxAround(edge, 0);
        return (
          inside([west, south], [east, north]) && (
            <path
              class={lines.ground.length > 0 ? 'dl-corridor dl-sheer' : 'dl-corridor'}
              d={`${linePath(edge.map(frame.toPixels))}Z`}
            />
          )
        );
      })}
      {lines.asides.map((line) => (
        <path class="dl-aside" d={pathThrough([line], frame, inside)} />
      ))}
      <path class="dl-casing" d={routeLine} />
      <path class="dl-reference" stroke-width={2} d={routeLine} />
      {strands.map((strand, i) => (
        <path {...strandLooks(model, strand)} d={pathThrough(lines.strands[i], frame, inside)} />
      ))}
      <path class="dl-solid" d={arrows(plane, route.length, frame)} />
      {planLabels(model, plane, view, frame, crossed)}
      {frame.furniture}
    </svg>
  );
  const key = drawKey(view.key, model, model.receivers, { left: 8, top: frame.height + 8, width: width - 16 });
  const bottom = key ? key.bottom + 2 : frame.height;
  const credit = view.credit && drawCredit(view.credit, bottom, width);
  return {
    width,
    height: credit?.bottom ?? bottom,
    title,
    description: describe(model, view),
    content: [clipped, key?.content, credit?.content],
    walk,
  };
}

/** Whose the surroundings are, in as many lines as it needs. */
function drawCredit({ words, stated }: SurroundingCredit, top: number, width: number) {
  const lines = wrappedLines(words.replace(/:$/, '.'), width - 16, CREDIT.size);
  const content = (
    <g>
      {lines.map((line, i) => (
        <text
          class={stated === 'yes' ? 'dl-soft dl-small' : 'dl-small dl-strong'}
          x={8}
          y={top + (i + 1) * CREDIT.line}
        >
          {line}
        </text>
      ))}
    </g>
  );
  return { bottom: top + lines.length * CREDIT.line + 6, content };
}

/** Whether the box around a segment in metres comes near the frame: a long one can cross it with both ends far away. */
function near({ box }: MapFrame): (a: Point, b: Point) => boolean {
  const margin = Math.max(box.east - box.west, box.north - box.south) / 4;
  return (a, b) =>
    Math.max(a[0], b[0]) > box.west - margin &&
    Math.min(a[0], b[0]) < box.east + margin &&
    Math.max(a[1], b[1]) > box.south - margin &&
    Math.min(a[1], b[1]) < box.north + margin;
}

/** Path data of lines in metres, without the parts far outside the frame. */
function pathThrough(
  lines: readonly (readonly Point[])[],
  frame: MapFrame,
  inside: (a: Point, b: Point) => boolean,
): string {
  const pieces: Point[][] = [];
  for (const line of lines) {
    let piece: Point[] = [];
    for (let i = 1; i < line.length; i++) {
      if (inside(line[i - 1], line[i])) {
        if (piece.length === 0) piece.push(frame.toPixels(line[i - 1]));
        piece.push(frame.toPixels(line[i]));
      } else if (piece.length > 0) {
        pieces.push(piece);
        piece = [];
      }
    }
    pieces.push(piece);
  }
  return pieces.map((piece) => linePath(piece)).join('');
}

/** Arrow heads along the route: which way it was travelled. */
function arrows(plane: RoutePlane, length: number, frame: MapFrame): string {
  const step = 130 / frame.scale;
  const heads: string[] = [];
  for (let s = step / 2; s < length; s += step) {
    const [x, y] = frame.toPixels(plane.at(s));
    if (x < 0 || y < 0 || x > frame.width || y > frame.height) continue;
    const [rightX, rightY] = plane.right(s, 3 / frame.scale);
    const [ahead, aside]: Point[] = [
      [-rightY, -rightX],
      [rightX, -rightY],
    ];
    const corner = (a: number, b: number) =>
      `${(x + a * ahead[0] + b * aside[0]).toFixed(1)},${(y + a * ahead[1] + b * aside[1]).toFixed(1)}`;
    heads.push(`M${corner(6, 0)}L${corner(-4, 4.5)}L${corner(-1.5, 0)}L${corner(-4, -4.5)}Z`);
  }
  return heads.join('');
}

function describe({ route, receivers }: ReportModel, { places }: PlanView): string {
  const sections = route.sections.length > 0 ? ` through ${showList(route.sections.map(({ name }) => name))}` : '';
  const recorded = receivers.length > 0 ? `, recorded by ${showList(receivers.map(({ label }) => label))}` : '';
  const worst = places.slice(0, 3).map((place) => `Place ${place.number}: ${describePlace(place)}`);
  return [`North is up. A route of ${showAlong(route.length)}${sections}${recorded}.`, ...worst].join(' ');
}

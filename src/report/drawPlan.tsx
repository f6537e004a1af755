import { describePlace } from './describePlace';
import { drawGround } from './drawGround';
import { drawKey } from './drawKey';
import { element, fragment } from './element';
import type { LabelBox } from './labelBox';
import { linePath } from './linePath';
import { boxAround, CORNER, type MapBox, type MapFrame, mapFrame } from './mapFrame';
import { Painted } from './Painted';
import type { Picture } from './Picture';
import { type LetteredName, planLabels } from './planLabels';
import type { PlanLines, StrandTrace } from './planLines';
import { strandLooks } from './receiverLooks';
import type { Place, ReportModel } from './reportModel';
import type { Point, RoutePlane } from './routePlane';
import { routeSpots } from './routeSpots';
import { showAlong, showList } from './showFigures';
import type { SurroundingCredit } from './surroundingCredit';
import type { Trace } from './Trace';
import { shortened, textWidth } from './textWidth';
import { wrappedLines } from './wrappedLines';

/** Pixels of the words below a plan, and from line to line. */
const WORDS = { size: 11, line: 14 };

/** What of a plan to draw. */
export interface PlanView {
  readonly width: number;
  readonly title: string;
  /** Metres east and north; the whole route when absent. */
  readonly box?: MapBox;
  /** Metres along the route of what to draw of recordings; all when absent. */
  readonly pass?: readonly [from: number, to: number];
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
  const whole = boxAround([plane.line], 0);
  const size = Math.max(whole.east - whole.west, whole.north - whole.south);
  const box = view.box ?? boxAround([plane.line], Math.max(30, 0.05 * size));
  const limits = view.limits ?? { least: 0.4 * width, most: 1.05 * width };
  const close = mapFrame(box, width, limits);
  const near = [
    routeSpots(plane, route.length, close),
    ...(view.box ? lines.strands.flat().map((line) => close.traceToPixels(line)) : []),
  ];
  const crossings = (corner: LabelBox) => near.reduce((sum, line) => sum + pointsIn(line, corner), 0);
  const frame = view.box
    ? inEmptiest(close, crossings)
    : crossings(close.corner) > 0
      ? mapFrame(box, width, limits, 0, CORNER)
      : close;
  const wide = widened(frame);
  const routeLine = pathThrough([plane.line], frame);
  const walk = routeSpots(plane, route.length, frame);
  const crossed = walk.x.map((x, i): Point => [x, walk.y[i]]);
  const labels = planLabels(model, plane, view, frame, crossed);
  const clipped = (
    <svg width={width} height={frame.height} viewBox={`0 0 ${width} ${frame.height}`} overflow="hidden">
      {drawGround(lines.ground, frame, view.pixel)}
      {lines.corridor.map((edge) => {
        return (
          meets(wide, boxAround([edge], 0)) && (
            <path
              class={lines.ground.length > 0 ? 'dl-corridor dl-sheer' : 'dl-corridor'}
              d={`${linePath(frame.traceToPixels(edge))}Z`}
            />
          )
        );
      })}
      {lines.asides.map((line) => (
        <path class="dl-aside" d={pathThrough([line], frame)} />
      ))}
      <path class="dl-casing" d={routeLine} />
      <path class="dl-reference" stroke-width={2} d={routeLine} />
      {strands.map((strand, i) => (
        <path {...strandLooks(model, strand)} d={pathThrough(lines.strands[i], frame, view.pass)} />
      ))}
      <path class="dl-solid" d={arrows(plane, route.length, frame)} />
      {labels.content}
      {frame.furniture}
    </svg>
  );
  const named = labels.key.length > 0 ? drawNames(labels.key, frame.height, width) : undefined;
  const above = named?.bottom ?? frame.height;
  const key = drawKey(view.key, model, model.receivers, { left: 8, top: above + 8, width: width - 16 });
  const bottom = key ? key.bottom + 2 : above;
  const credit =
    view.credit &&
    drawWords(
      view.credit.words.replace(/:$/, '.'),
      view.credit.stated === 'yes' ? 'dl-soft dl-small' : 'dl-small dl-strong',
      bottom,
      width,
    );
  return {
    width,
    height: credit?.bottom ?? bottom,
    title,
    description: describe(model, view),
    content: [clipped, named?.content, key?.content, credit?.content],
    walk,
  };
}

/** North arrow and scale bar in the corner that the fewest lines run through. */
function inEmptiest(frame: MapFrame, crossings: (corner: LabelBox) => number): MapFrame {
  const { right, top } = frame.corner;
  const corners = [top, 0].flatMap((y) =>
    [0, frame.width - right].map((x) => ({ left: x, right: x + right, top: y, bottom: y + CORNER })),
  );
  const corner = corners.reduce((best, one) => (crossings(one) < crossings(best) ? one : best));
  const furniture = <g transform={`translate(${corner.left},${corner.top - top})`}>{frame.furniture}</g>;
  return { ...frame, corner, furniture };
}

/** How many points of a line lie in a box. */
function pointsIn({ x, y }: Trace, box: LabelBox): number {
  const { left, right, top, bottom } = box;
  let count = 0;
  for (let i = 0; i < x.length; i++) if (x[i] >= left && x[i] <= right && y[i] >= top && y[i] <= bottom) count++;
  return count;
}

/** Words in as many lines as they need. */
function drawWords(words: string, looks: string, top: number, width: number) {
  const lines = wrappedLines(words, width - 16, WORDS.size);
  const content = (
    <g>
      {lines.map((line, i) => (
        <text class={looks} x={8} y={top + (i + 1) * WORDS.line}>
          {line}
        </text>
      ))}
    </g>
  );
  return { bottom: top + lines.length * WORDS.line + 6, content };
}

/** What the letters of a plan stand for, in columns. */
function drawNames(key: readonly LetteredName[], top: number, width: number) {
  const [left, aside] = [8, 20];
  const widest = Math.max(...key.map(({ name }) => textWidth(name, WORDS.size))) + aside + 12;
  const columns = Math.max(1, Math.floor((width - left) / widest));
  const lines = Math.ceil(key.length / columns);
  const content = (
    <g class="dl-small">
      {key.map(({ letter, name }, i) => {
        const x = left + Math.floor(i / lines) * widest;
        const y = top + ((i % lines) + 1) * WORDS.line;
        return (
          <>
            <text class="dl-strong" x={x.toFixed(1)} y={y}>
              {letter}
            </text>
            <text x={(x + aside).toFixed(1)} y={y}>
              {shortened(name, width - left - aside, WORDS.size)}
            </text>
          </>
        );
      })}
    </g>
  );
  return { bottom: top + lines * WORDS.line + 6, content };
}

/** The frame's box with as much about it that no line that ends there shows its end. */
function widened({ box: { west, south, east, north } }: MapFrame): MapBox {
  const margin = Math.max(east - west, north - south) / 4;
  return { west: west - margin, south: south - margin, east: east + margin, north: north + margin };
}

/** Whether some of a box may be seen in a frame widened so. */
function meets(wide: MapBox, { west, south, east, north }: MapBox): boolean {
  return east > wide.west && west < wide.east && north > wide.south && south < wide.north;
}

/** Path data of lines in metres, without the parts far outside the frame or, where they know how far along they are, of other passes. */
function pathThrough(
  lines: readonly (Trace & Partial<StrandTrace>)[],
  frame: MapFrame,
  [from, to] = [-Infinity, Infinity] as PlanView['pass'] & {},
): string {
  const { west, south, east, north } = widened(frame);
  const painted = new Painted(frame.width, frame.height);
  let path = '';
  for (const line of lines) {
    const { x, y, along } = line;
    const other = (i: number) => along !== undefined && along[i] !== null && !(along[i]! >= from && along[i]! <= to);
    // a long piece can cross the frame with both ends far away
    const unseen = (i: number, k: number) =>
      (x[i] <= west && x[k] <= west) ||
      (x[i] >= east && x[k] >= east) ||
      (y[i] <= south && y[k] <= south) ||
      (y[i] >= north && y[k] >= north) ||
      other(i) ||
      other(k);
    let begin = 0;
    for (let i = 1; i <= x.length; i++) {
      if (i < x.length && !unseen(i - 1, i)) continue;
      if (i - begin > 1) path += linePath(frame.traceToPixels(line, begin, i), painted);
      begin = i;
    }
  }
  return path;
}

/** Arrow heads along the route: which way it was travelled. One for all that would point the same way at one place. */
function arrows(plane: RoutePlane, length: number, frame: MapFrame): string {
  const step = 130 / frame.scale;
  const heads = new Map<string, string>();
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
    const way = Math.round(Math.atan2(ahead[1], ahead[0]) * 1.3);
    const head = `${[x, y].map((value) => Math.round(value / 24))} ${way}`;
    if (!heads.has(head))
      heads.set(head, `M${corner(6, 0)}L${corner(-4, 4.5)}L${corner(-1.5, 0)}L${corner(-4, -4.5)}Z`);
  }
  return [...heads.values()].join('');
}

function describe({ route, receivers }: ReportModel, { places }: PlanView): string {
  const sections = route.sections.length > 0 ? ` through ${showList(route.sections.map(({ name }) => name))}` : '';
  const recorded = receivers.length > 0 ? `, recorded by ${showList(receivers.map(({ label }) => label))}` : '';
  const worst = places.slice(0, 3).map((place) => `Place ${place.number}: ${describePlace(place)}`);
  return [`North is up. A route of ${showAlong(route.length)}${sections}${recorded}.`, ...worst].join(' ');
}

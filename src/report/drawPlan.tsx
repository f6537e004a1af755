import { describePlace } from './describePlace';
import { drawBadge } from './drawBadge';
import { drawKey } from './drawKey';
import { type Content, element, fragment } from './element';
import { Label } from './Label';
import { boxAbout } from './labelBox';
import { linePath } from './linePath';
import { boxAround, type MapBox, type MapFrame, mapFrame } from './mapFrame';
import type { Picture } from './Picture';
import { placeLabels, type WantedLabel } from './placeLabels';
import { strandLooks } from './receiverLooks';
import type { Place, ReportModel } from './reportModel';
import type { Point, RoutePlane } from './routePlane';
import { routeSpots } from './routeSpots';
import { showAlong, showList } from './showFigures';
import { strandPieces } from './strandPieces';
import { textWidth } from './textWidth';

/** What every plan of one report is drawn from, in metres east and north. */
export interface PlanLines {
  readonly corridor: readonly (readonly Point[])[];
  readonly asides: readonly (readonly Point[])[];
  /** By strand: its pieces. */
  readonly strands: readonly (readonly (readonly Point[])[])[];
}

/** The lines of all plans, brought into the plane once. */
export function planLines({ route, strands }: ReportModel, plane: RoutePlane): PlanLines {
  return {
    corridor: route.corridor.map(({ left, right }) => [
      ...plane.lineToPlane(left),
      ...plane.lineToPlane(right).reverse(),
    ]),
    asides: [route.decoy, route.centreline].flatMap((line) => (line ? [plane.lineToPlane(line)] : [])),
    strands: strands.map(({ recording }) => strandPieces(recording).map(plane.lineToPlane)),
  };
}

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
  const walk = routeSpots(plane, route.length, frame.toPixels);
  const clipped = (
    <svg width={width} height={frame.height} viewBox={`0 0 ${width} ${frame.height}`} overflow="hidden">
      {lines.corridor.map((edge) => {
        const { west, south, east, north } = boxAround(edge, 0);
        return (
          inside([west, south], [east, north]) && (
            <path class="dl-corridor" d={`${linePath(edge.map(frame.toPixels))}Z`} />
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
      {annotations(model, plane, view, frame, walk)}
      {frame.furniture}
    </svg>
  );
  const key = drawKey(view.key, model, model.receivers, { left: 8, top: frame.height + 8, width: width - 16 });
  return {
    width,
    height: key ? key.bottom + 2 : frame.height,
    title,
    description: describe(model, view),
    content: [clipped, key?.content],
    walk,
  };
}

/** Whether the box around a segment in metres comes near the frame: a long one can cross it with both ends far away. */
function near({ box }: MapFrame): (a: Point, b: Point) => boolean {
  const margin = Math.max(box.east - box.west, box.north - box.south) / 4;
  return ([ax, ay], [bx, by]) =>
    Math.max(ax, bx) > box.west - margin &&
    Math.min(ax, bx) < box.east + margin &&
    Math.max(ay, by) > box.south - margin &&
    Math.min(ay, by) < box.north + margin;
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

/** Numbered places first, then start and finish, marks and sections: what finds no room is left out, numbers never. */
function annotations(
  { route }: ReportModel,
  plane: RoutePlane,
  { places, names }: PlanView,
  frame: MapFrame,
  walk: NonNullable<Picture['walk']>,
): Content {
  const crossed = walk.x.map((x, i): Point => [x, walk.y![i]]);
  const room = { width: frame.width, height: frame.height };
  const shown = places.map(({ strayings: [{ excursion }] }) => {
    const at = frame.toPixels(plane.at(excursion.peakAt));
    const [x, y] = plane.right(excursion.peakAt, 5);
    const sign = excursion.peak < 0 ? -1 : 1;
    return { at, width: 18, height: 18, towards: [sign * x, -sign * y] as Point };
  });
  const furniture = { left: 0, top: frame.height - 50, right: Math.min(220, frame.width / 2), bottom: frame.height };
  const badges = placeLabels(shown, room, crossed, [furniture], 'set anyhow');
  const taken = badges.flatMap((place) => (place ? [boxAbout(place, 9)] : []));
  const texts = names === 'none' ? [] : wantedNames(route, plane, frame);
  const spots = placeLabels(texts, room, crossed, [furniture, ...taken]);
  return (
    <>
      {texts.map(({ at, text, kind }, i) => (
        <>
          {kind !== 'section' && <circle class="dl-badge" cx={at[0].toFixed(1)} cy={at[1].toFixed(1)} r={3.5} />}
          {spots[i] && (
            <Label at={spots[i]} looks={kind === 'section' ? 'dl-strong' : 'dl-soft dl-small'}>
              {text}
            </Label>
          )}
        </>
      ))}
      {places.map((place, i) => {
        const [at, badge] = [shown[i].at, badges[i]];
        if (!badge) return null;
        return (
          <>
            <path class="dl-leader" d={`M${at.map((v) => v.toFixed(1))}L${badge.map((v) => v.toFixed(1))}`} />
            {drawBadge(place.number, badge)}
          </>
        );
      })}
    </>
  );
}

function wantedNames(route: ReportModel['route'], plane: RoutePlane, frame: MapFrame) {
  const label = (
    text: string,
    alongTrack: number,
    kind: 'section' | 'mark',
  ): WantedLabel & { text: string; kind: string } => ({
    at: frame.toPixels(plane.at(alongTrack)),
    width: textWidth(text, kind === 'section' ? 12 : 11),
    height: 15,
    text,
    kind,
  });
  const [start, finish] = [plane.at(0), plane.at(route.length)];
  const together = Math.hypot(start[0] - finish[0], start[1] - finish[1]) * frame.scale < 20;
  return [
    label(together ? 'start and finish' : 'start', 0, 'mark'),
    ...(together ? [] : [label('finish', route.length, 'mark')]),
    ...route.sections.map(({ name, from, to }) => label(name, (from + to) / 2, 'section')),
    ...route.marks.map(({ name, alongTrack }) => label(name, alongTrack, 'mark')),
  ];
}

function describe({ route, receivers }: ReportModel, { places }: PlanView): string {
  const sections = route.sections.length > 0 ? ` through ${showList(route.sections.map(({ name }) => name))}` : '';
  const worst = places.slice(0, 3).map((place) => `Place ${place.number}: ${describePlace(place)}`);
  return [
    `North is up. A route of ${showAlong(route.length)}${sections}, recorded by ${showList(receivers.map(({ label }) => label))}.`,
    ...worst,
  ].join(' ');
}

import { clippedRing } from '../areas';
import { type Content, element } from './element';
import { GROUND_TONES, type GroundShape } from './groundShapes';
import { boxAbout, type LabelBox, overlap } from './labelBox';
import type { MapFrame } from './mapFrame';
import type { Point } from './routePlane';
import { textWidth } from './textWidth';

/** Pixels: two places nearer are one, and what is smaller both ways is not drawn. */
const PIXEL = 1;

/** Pixels: of what is smaller both ways the outline tells nothing, so it is a square on whole pixels, in a third of the letters. */
const SPECK = 3;

/** Pixels beyond the frame that are drawn, so that no outline runs along its edge. */
const BEYOND = 4;

const LABEL_SIZE = 10;

/**
 * What lies under a plan: one path for each tone, clipped to the frame and thinned to the pixel; then the names of ways.
 *
 * @param pixel - Of the finished picture, in pixels as it is drawn.
 */
export function drawGround(shapes: readonly GroundShape[], frame: MapFrame, pixel = PIXEL): Content {
  const [low, high] = [
    [-BEYOND, -BEYOND],
    [frame.width + BEYOND, frame.height + BEYOND],
  ];
  const paths = new Map<string, string[]>();
  const named: { name: string; line: Point[] }[] = [];
  const seen = new Set<string>();
  const specks = new Map<string, Map<string, Speck>>();
  for (const shape of shapes) {
    const [left, top] = frame.toPixels([shape.west, shape.north]);
    const [right, bottom] = frame.toPixels([shape.east, shape.south]);
    if (right < low[0] || left > high[0] || bottom < low[1] || top > high[1]) continue;
    if (right - left < pixel && bottom - top < pixel) continue;
    if (isFilled(shape) && right - left < SPECK * pixel && bottom - top < SPECK * pixel) {
      const speck = speckOf(left, top, Math.max(right - left, bottom - top), pixel);
      const mine = specks.get(shape.tone) ?? new Map<string, Speck>();
      specks.set(shape.tone, mine.set(speck.join(), speck));
      continue;
    }
    const whole = left >= low[0] && right <= high[0] && top >= low[1] && bottom <= high[1];
    const own: string[] = [];
    for (const line of shape.lines) {
      const pixels = line.map(frame.toPixels);
      if (shape.closed) own.push(ringPath(whole ? pixels : clippedRing(pixels, low, high), pixel));
      else {
        for (const piece of whole ? [pixels] : clippedLine(pixels, low, high)) {
          own.push(linePixels(piece, pixel));
          if (shape.name !== null) named.push({ name: shape.name, line: piece });
        }
      }
    }
    const text = own.join('');
    // two that fall on the same pixels are one
    const key = `${shape.tone} ${text}`;
    if (text === '' || seen.has(key)) continue;
    seen.add(key);
    const mine = paths.get(shape.tone) ?? [];
    mine.push(text);
    paths.set(shape.tone, mine);
  }
  for (const [tone, mine] of specks) {
    const drawn = paths.get(tone) ?? [];
    paths.set(tone, drawn);
    drawn.push(specksPath([...mine.values()], pixel));
  }
  if (paths.size === 0) return null;
  return (
    <g>
      {GROUND_TONES.map((tone) => {
        const mine = paths.get(tone);
        return mine && <path class={`dl-ground dl-${tone}`} d={mine.join('')} />;
      })}
      {wayNames(named, frame)}
    </g>
  );
}

/** Names of ways where their longest straight piece has room, each once. */
function wayNames(named: readonly { name: string; line: readonly Point[] }[], frame: MapFrame): Content {
  const longest = new Map<string, { a: Point; b: Point; length: number }>();
  for (const { name, line } of named) {
    for (let i = 1; i < line.length; i++) {
      const [a, b] = [line[i - 1], line[i]];
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      if (length > (longest.get(name)?.length ?? 0)) longest.set(name, { a, b, length });
    }
  }
  const taken: LabelBox[] = [{ left: 0, right: frame.width / 2, top: frame.height - 50, bottom: frame.height }];
  return [...longest]
    .sort(([, a], [, b]) => b.length - a.length)
    .map(([name, { a, b, length }]) => {
      const width = textWidth(name, LABEL_SIZE);
      if (length < width + 12) return null;
      const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      let angle = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
      if (angle > 90) angle -= 180;
      if (angle < -90) angle += 180;
      const turn = (angle * Math.PI) / 180;
      const [aside, upright] = [
        (Math.abs(Math.cos(turn)) * width + Math.abs(Math.sin(turn)) * LABEL_SIZE) / 2,
        (Math.abs(Math.sin(turn)) * width + Math.abs(Math.cos(turn)) * LABEL_SIZE) / 2,
      ];
      const box = boxAbout(middle, aside, upright);
      if (box.left < 0 || box.top < 0 || box.right > frame.width || box.bottom > frame.height) return null;
      if (taken.some((other) => overlap(box, other))) return null;
      taken.push(box);
      const [x, y] = middle.map((value) => value.toFixed(1));
      return (
        <text
          class="dl-soft dl-way-name"
          x={x}
          y={y}
          dy="0.35em"
          text-anchor="middle"
          transform={`rotate(${angle.toFixed(1)} ${x} ${y})`}
        >
          {name}
        </text>
      );
    });
}

/** To the pixel, relative: a house takes some fifteen letters. */
function moves(points: readonly Point[], pixel: number): { text: string; count: number } {
  // steps of half a pixel or less, a power of two: short in writing
  const steps = 2 ** Math.ceil(Math.log2(2 / Math.min(PIXEL, pixel)));
  let text = '';
  let count = 0;
  let [px, py] = [Number.NaN, Number.NaN];
  for (const [x, y] of points) {
    const [cx, cy] = [Math.round(steps * x), Math.round(steps * y)];
    if (Math.abs(cx - px) + Math.abs(cy - py) < steps * pixel) continue;
    text += count === 0 ? `M${pair(cx / steps, cy / steps)}` : next(pair((cx - px) / steps, (cy - py) / steps), count);
    [px, py] = [cx, cy];
    count++;
  }
  return { text, count };
}

/** A square, in grid units: its corner and its side. */
type Speck = readonly [x: number, y: number, side: number];

/** Grid units to a pixel as it is drawn: whole pixels, or less where those of the finished picture are finer. */
function gridOf(pixel: number): number {
  return 2 ** Math.ceil(Math.log2(1 / Math.min(PIXEL, pixel)));
}

function speckOf(left: number, top: number, size: number, pixel: number): Speck {
  const grid = gridOf(pixel);
  return [Math.round(left * grid), Math.round(top * grid), Math.max(1, Math.round(size * grid))];
}

/** Whether a shape is filled and has no outline. */
function isFilled({ closed, tone }: GroundShape): boolean {
  return closed && tone !== 'way' && tone !== 'allowed' && tone !== 'impossible';
}

/** Row by row, each from where the one before ended: a fill closes by itself. */
function specksPath(specks: readonly Speck[], pixel: number): string {
  const grid = gridOf(pixel);
  let text = '';
  let [px, py] = [0, 0];
  for (const [x, y, side] of [...specks].sort((a, b) => a[1] - b[1] || a[0] - b[0])) {
    const length = short(side / grid);
    text += `${text === '' ? 'M' : 'm'}${pair((x - px) / grid, (y - py) / grid)}h${length}v${length}h-${length}`;
    [px, py] = [x, y + side];
  }
  return text;
}

/** Two numbers as short as path data may have them: no zero before a point, no blank before a minus. */
function pair(x: number, y: number): string {
  const [a, b] = [short(x), short(y)];
  return b.startsWith('-') ? a + b : `${a} ${b}`;
}

function short(value: number): string {
  return String(value).replace(/^(-?)0\./, '$1.');
}

/** A further move: the letter stands before the first only. */
function next(move: string, count: number): string {
  return count === 1 ? `l${move}` : move.startsWith('-') ? move : ` ${move}`;
}

function linePixels(points: readonly Point[], pixel: number): string {
  const { text, count } = moves(points, pixel);
  return count < 2 ? '' : text;
}

function ringPath(points: readonly Point[], pixel: number): string {
  const { text, count } = moves(points, pixel);
  return count < 3 ? '' : `${text}z`;
}

/** The pieces of a line within a box (Liang and Barsky 1984). */
function clippedLine(line: readonly Point[], low: readonly number[], high: readonly number[]): Point[][] {
  const pieces: Point[][] = [];
  let open: Point[] = [];
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1], line[i]];
    let [from, to] = [0, 1];
    for (const axis of [0, 1] as const) {
      const change = b[axis] - a[axis];
      if (change === 0) {
        if (a[axis] < low[axis] || a[axis] > high[axis]) to = -1;
        continue;
      }
      const ends = [(low[axis] - a[axis]) / change, (high[axis] - a[axis]) / change];
      from = Math.max(from, Math.min(...ends));
      to = Math.min(to, Math.max(...ends));
    }
    if (from > to) continue;
    const at = (share: number): Point => [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    if (from > 0 || open.length === 0) {
      open = [at(from)];
      pieces.push(open);
    }
    open.push(at(to));
    if (to < 1) open = [];
  }
  return pieces;
}

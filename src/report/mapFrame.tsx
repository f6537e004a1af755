import { element } from './element';
import type { LabelBox } from './labelBox';
import type { Markup } from './Markup';
import type { Point } from './routePlane';
import { showAlong } from './showFigures';
import type { Trace } from './Trace';

/** A box in metres east and north. */
export interface MapBox {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** How a map's metres become pixels, north up. */
export interface MapFrame {
  readonly width: number;
  readonly height: number;
  /** Pixels a metre. */
  readonly scale: number;
  readonly box: MapBox;
  readonly toPixels: (point: Point) => Point;
  /** Of a line the points from one to before another. */
  readonly traceToPixels: (line: Trace, from?: number, to?: number) => Trace;
  /** North arrow and scale bar, in the lower left corner. */
  readonly furniture: Markup;
  /** Where these are, pixels. */
  readonly corner: LabelBox;
}

/** Pixels that north arrow and scale bar are high. */
export const CORNER = 50;

/** The smallest box around all lines, `padding` metres wider on each side. */
export function boxAround(lines: readonly Trace[], padding: number): MapBox {
  let west = Infinity;
  let south = Infinity;
  let east = -Infinity;
  let north = -Infinity;
  for (const { x, y } of lines) {
    for (let i = 0; i < x.length; i++) {
      west = Math.min(west, x[i] - padding);
      east = Math.max(east, x[i] + padding);
      south = Math.min(south, y[i] - padding);
      north = Math.max(north, y[i] + padding);
    }
  }
  return { west, south, east, north };
}

/**
 * A frame of the given width for a box, and as high as the box needs within the limits; the box is centred in what is left.
 *
 * @param under - Pixels kept free below for north arrow and scale bar, where the line would run through them.
 */
export function mapFrame(
  box: MapBox,
  width: number,
  limits: { readonly least: number; readonly most: number },
  margin = 0,
  under = 0,
): MapFrame {
  const dx = Math.max(box.east - box.west, 1);
  const dy = Math.max(box.north - box.south, 1);
  const across = width - 2 * margin;
  const height = Math.round(Math.min(limits.most, Math.max(limits.least, (dy / dx) * across + 2 * margin + under)));
  const scale = Math.min(across / dx, (height - under - 2 * margin) / dy);
  const [left, top] = [(width - dx * scale) / 2, (height - under - dy * scale) / 2];
  return {
    width,
    height,
    scale,
    box,
    toPixels: (point) => [left + (point[0] - box.west) * scale, top + (box.north - point[1]) * scale],
    traceToPixels: (line, from = 0, to = line.x.length) => {
      const x = new Float64Array(to - from);
      const y = new Float64Array(to - from);
      for (let i = from; i < to; i++) {
        x[i - from] = left + (line.x[i] - box.west) * scale;
        y[i - from] = top + (box.north - line.y[i]) * scale;
      }
      return { x, y };
    },
    furniture: (
      <g>
        {scaleBar(scale, width, height)}
        {northArrow(height)}
      </g>
    ),
    corner: { left: 0, top: height - CORNER, right: Math.min(220, width / 2), bottom: height },
  };
}

/** 1, 2 or 5 times a power of ten, the largest not above `limit`. */
export function roundBelow(limit: number): number {
  const power = 10 ** Math.floor(Math.log10(limit));
  return [5, 2, 1].map((digit) => digit * power).find((value) => value <= limit) ?? power;
}

function scaleBar(scale: number, width: number, height: number): Markup {
  const metres = roundBelow(Math.min(160, width / 3) / scale);
  const length = metres * scale;
  const label = metres < 1 ? `${metres} m` : showAlong(metres);
  const y = height - 10;
  return (
    <g>
      <path class="dl-casing" d={`M34,${y - 5}v5h${length.toFixed(1)}v-5`} />
      <path class="dl-axis" stroke-width={1.5} d={`M34,${y - 5}v5h${length.toFixed(1)}v-5`} />
      <text class="dl-halo dl-small" x={(34 + length / 2).toFixed(1)} y={y - 7} text-anchor="middle">
        {label}
      </text>
    </g>
  );
}

function northArrow(height: number): Markup {
  return (
    <g transform={`translate(16,${height - 12})`}>
      <path class="dl-casing" d="M0,0V-22" />
      <path class="dl-solid" d="M0,-24l5,10l-5,-3l-5,3z" />
      <path class="dl-axis" d="M0,-17V0" />
      <text class="dl-halo dl-small dl-strong" x={0} y={-27} text-anchor="middle">
        N
      </text>
    </g>
  );
}

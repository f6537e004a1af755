import { element } from './element';
import type { Markup } from './Markup';
import { type OffsetAt, offsetRuns } from './offsetRuns';
import type { ReportModel, Strand } from './reportModel';
import { runTags } from './runTags';
import { textWidth } from './textWidth';

/** Pixels of a panel that a run's name stands in once. */
const EVERY = 320;
/** Pixels from one place that is tried to the next. */
const STEP = 6;

/**
 * The names of a receiver's runs, each on its own line as heights stand on contour lines: where that line lies furthest from
 * the others, once in so many pixels. Nothing where one run is shown, or lines of several receivers.
 */
export function runLabels(
  model: ReportModel,
  strands: readonly Strand[],
  stretch: { readonly from: number; readonly to: number },
  x: (alongTrack: number) => number,
  y: (offset: number) => number,
  room: { readonly width: number; readonly height: number },
  taken: readonly Box[] = [],
): Markup[] {
  const receivers = new Set(strands.map(({ receiver }) => receiver));
  if (receivers.size > 1 || new Set(strands.map(({ run }) => run)).size < 2) return [];
  const tags = runTags(model);
  const heights = strands.map((strand) => sampled(offsetRuns(strand, stretch.from, stretch.to), x, y, room));
  const boxes = [...taken];
  const labels: Markup[] = [];
  const slots = Math.max(1, Math.round(room.width / EVERY));
  for (let slot = 0; slot < slots; slot++) {
    strands.forEach((strand, k) => {
      const text = tags.get(strand.run)!;
      const half = textWidth(text, 10) / 2 + 2;
      let best: { at: number; height: number; free: number; box: Box } | undefined;
      for (let i = 0; i < heights[k].length; i++) {
        const at = i * STEP;
        const height = heights[k][i];
        if (at < (slot * room.width) / slots || at >= ((slot + 1) * room.width) / slots) continue;
        if (height === undefined || at < half || at > room.width - half) continue;
        const box = { left: at - half, right: at + half, top: height - 6, bottom: height + 6 };
        if (boxes.some((other) => overlap(box, other))) continue;
        const free = Math.min(
          ...heights.map((others, j) => {
            const other = others[i];
            return j === k || other === undefined ? 40 : Math.abs(other - height);
          }),
        );
        if (!best || free > best.free) best = { at, height, free, box };
      }
      if (!best) return;
      boxes.push(best.box);
      labels.push(
        <text class="dl-halo dl-run" x={best.at} y={best.height.toFixed(1)} dy=".35em" text-anchor="middle">
          {text}
        </text>,
      );
    });
  }
  return labels;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Height of a line at every few pixels; undefined where it is broken or outside the panel. */
function sampled(
  runs: readonly (readonly OffsetAt[])[],
  x: (alongTrack: number) => number,
  y: (offset: number) => number,
  { width, height }: { readonly width: number; readonly height: number },
): (number | undefined)[] {
  const heights: (number | undefined)[] = new Array(Math.floor(width / STEP) + 1).fill(undefined);
  for (const run of runs) {
    for (const [s, n] of run) {
      const place = y(n);
      if (place > 6 && place < height - 6) heights[Math.round(x(s) / STEP)] = place;
    }
  }
  return heights;
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

import { element } from './element';
import { Label } from './Label';
import { boxAbout, type LabelBox, overlap } from './labelBox';
import type { Markup } from './Markup';
import { type OffsetRun, offsetRuns } from './offsetRuns';
import type { ReportModel } from './reportModel';
import type { Point } from './routePlane';
import { runTags } from './runTags';
import type { StripPanel } from './StripView';
import { textWidth } from './textWidth';

/** Pixels of a panel that a run's name stands in once. */
const EVERY = 700;
/** Pixels from one place that is tried to the next. */
const STEP = 6;

/**
 * The names of a receiver's runs, each on its own line as heights stand on contour lines: where that line lies furthest from
 * the others, once in so many pixels. Nothing where one run is shown, or lines of several receivers.
 */
export function runLabels(model: ReportModel, panel: StripPanel, taken: readonly LabelBox[]): Markup[] {
  const { strands, from, to, width } = panel;
  const receivers = new Set(strands.map(({ receiver }) => receiver));
  if (receivers.size > 1 || new Set(strands.map(({ run }) => run)).size < 2) return [];
  const tags = runTags(model);
  const heights = strands.map((strand) => sampled(offsetRuns(strand, from, to), panel));
  const boxes = [...taken];
  const labels: Markup[] = [];
  const slots = Math.max(1, Math.round(width / EVERY));
  for (let slot = 0; slot < slots; slot++) {
    strands.forEach((strand, k) => {
      const text = tags.get(strand.run)!;
      const half = textWidth(text, 10) / 2 + 2;
      let best: { at: Point; free: number; box: LabelBox } | undefined;
      for (let i = 0; i < heights[k].length; i++) {
        const x = i * STEP;
        const y = heights[k][i];
        if (x < (slot * width) / slots || x >= ((slot + 1) * width) / slots) continue;
        if (y === undefined || x < half || x > width - half) continue;
        const box = boxAbout([x, y], half, 6);
        if (boxes.some((other) => overlap(box, other))) continue;
        const free = Math.min(
          ...heights.map(({ [i]: other }, j) => (j === k || other === undefined ? 40 : Math.abs(other - y))),
        );
        if (!best || free > best.free) best = { at: [x, y], free, box };
      }
      if (!best) return;
      boxes.push(best.box);
      labels.push(
        <Label at={best.at} looks="dl-run">
          {text}
        </Label>,
      );
    });
  }
  return labels;
}

/** Height of a line at every few pixels; undefined where it is broken or outside the panel. */
function sampled(runs: readonly OffsetRun[], { x, y, width, height }: StripPanel): (number | undefined)[] {
  const heights: (number | undefined)[] = new Array(Math.floor(width / STEP) + 1).fill(undefined);
  for (const { along, offset } of runs) {
    for (let i = 0; i < along.length; i++) {
      const place = y(offset[i]);
      if (place > 6 && place < height - 6) heights[Math.round(x(along[i]) / STEP)] = place;
    }
  }
  return heights;
}

import { symbol, symbolsFill } from 'd3-shape';
import { element } from './element';
import type { Markup } from './Markup';
import type { Receiver, ReportModel, Strand } from './reportModel';

/**
 * Colours of the set by Okabe and Ito, "Color Universal Design" (2002), in an order that keeps neighbours apart; its
 * yellow can't be seen on paper, and its black is kept for the reference line.
 */
export const receiverColours = ['#0072B2', '#D55E00', '#009E73', '#CC79A7', '#E69F00', '#56B4E9'] as const;

/** Dash patterns, so that no line is known by its colour alone. */
const dashes = [undefined, '7 2.5', '2.2 2', '9 2.5 2 2.5', '14 3', '4 2 1.5 2 1.5 2', '1.2 2.6'];

/** Attributes of a receiver's lines: past six receivers the colours come round again with other dashes. */
export function receiverLooks({ index }: Receiver) {
  const colour = index % receiverColours.length;
  const dash = dashes[(index + Math.floor(index / receiverColours.length)) % dashes.length];
  return { colour, line: { class: `dl-line dl-r${colour}`, 'stroke-dasharray': dash, 'stroke-width': LINE } };
}

/** Pixels of a line where there is one run; of several the first is drawn thinnest and the last thickest. */
const LINE = 1.4;
const THIN = 0.9;
const THICK = 2.1;

/** Width of the lines of a run, in pixels. */
export function runWidth({ runs }: Pick<ReportModel, 'runs'>, run: string | null): number {
  if (runs.length < 2) return LINE;
  return Number((THIN + ((THICK - THIN) * runs.indexOf(run)) / (runs.length - 1)).toFixed(2));
}

/** Attributes of a recording's line: colour and dash are its receiver's, the width its run's. */
export function strandLooks(model: Pick<ReportModel, 'runs'>, { receiver, run }: Strand) {
  return { ...receiverLooks(receiver).line, 'stroke-width': runWidth(model, run) };
}

/** A receiver's marker, centred, about `size` wide. */
export function receiverMarker({ index }: Receiver, x: number, y: number, size = 9): Markup {
  const round = Math.floor(index / receiverColours.length);
  const shape = symbol(symbolsFill[(index + round) % symbolsFill.length], size * size * 0.62).digits(1)();
  return (
    <path
      class={`dl-marker dl-f${index % receiverColours.length}`}
      transform={`translate(${x.toFixed(1)},${y.toFixed(1)})`}
      d={shape}
    />
  );
}

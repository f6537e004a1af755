import type { LineDash } from '../model';
import { element } from './element';
import type { Markup } from './Markup';
import { markerPath } from './markerPath';
import type { Receiver, ReportModel, Strand } from './reportModel';

/**
 * Colours of the set by Okabe and Ito, "Color Universal Design" (2002), in an order that keeps neighbours apart; its
 * yellow can't be seen on paper, and its black is kept for the reference line.
 */
export const receiverColours = ['#0072B2', '#D55E00', '#009E73', '#CC79A7', '#E69F00', '#56B4E9'] as const;

/** Dash patterns by name, so that no line is known by its colour alone. */
const dashPatterns: Readonly<Record<LineDash, string | undefined>> = {
  solid: undefined,
  dashed: '7 2.5',
  dotted: '2.2 2',
  'dash-dotted': '9 2.5 2 2.5',
  'long-dashed': '14 3',
  'dash-dot-dotted': '4 2 1.5 2 1.5 2',
  'fine-dotted': '1.2 2.6',
};
const dashes = Object.values(dashPatterns);

/** Attributes of a receiver's lines and areas: six colours and seven dashes, so that 42 receivers are drawn each in its own way. */
export function receiverLooks({ slot, look }: Receiver) {
  const colour = slot % receiverColours.length;
  const dash = look.dash ? dashPatterns[look.dash] : dashes[slot % dashes.length];
  return {
    stroke: look.colour ? { stroke: look.colour } : { class: `dl-r${colour}` },
    fill: look.colour ? { fill: look.colour } : { class: `dl-f${colour}` },
    line: {
      class: look.colour ? 'dl-line' : `dl-line dl-r${colour}`,
      stroke: look.colour,
      'stroke-dasharray': dash,
      'stroke-width': LINE,
    },
  };
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
export function receiverMarker(receiver: Receiver, x: number, y: number, size = 9): Markup {
  const { slot, look } = receiver;
  return (
    <path
      class={look.colour ? 'dl-marker' : `dl-marker dl-f${slot % receiverColours.length}`}
      fill={look.colour}
      transform={`translate(${Math.round(10 * x) / 10},${Math.round(10 * y) / 10})`}
      d={markerPath(slot, size * size * 0.62)}
    />
  );
}

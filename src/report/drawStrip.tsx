import { nice } from 'd3-array';
import { quantileIn } from '../statistics';
import { drawKey } from './drawKey';
import { element, fragment } from './element';
import { isSideless } from './isSideless';
import { linearScale } from './linearScale';
import { offsetRuns } from './offsetRuns';
import { offsetSizes } from './offsetSizes';
import type { Picture } from './Picture';
import type { ReportModel } from './reportModel';
import type { StripRow, StripView } from './StripView';
import { sectionNames } from './sectionNames';
import { showAlong, showStretch } from './showFigures';
import { stripAxis } from './stripAxis';
import { stripPanel } from './stripPanel';

/** Pixels left and right of the panels, above each for its title, and below it. */
const LEFT = 42;
const RIGHT = 10;
const TITLE = 17;
const GAP = 8;

/**
 * Cross-track against along-track, as the traveller looks: left of the route above the line, right below it. Gaps in a
 * recording are gaps in its line.
 */
export function drawStrip(model: ReportModel, view: StripView): Picture {
  const { width, rows, rowHeight: height } = view;
  const inner = width - LEFT - RIGHT;
  const reach = offsetReach(model, rows);
  const y = linearScale([-reach, reach], [0, height]);
  const panels = rows.map((row) => {
    const x = linearScale([row.from, row.to], [0, inner]);
    return { ...row, x, y, width: inner, height, reach };
  });
  const [first] = panels;
  const names = view.sections === 'named' ? sectionNames(model, first) : { height: 0, content: null };
  const step = TITLE + height + GAP;
  const bottom = names.height + rows.length * step;
  const receivers = model.receivers.filter((receiver) =>
    rows.some(({ strands }) => strands.some((strand) => strand.receiver === receiver)),
  );
  const key = drawKey(view.key, model, receivers, { left: LEFT, top: bottom + 36, width: inner });
  return {
    width,
    height: key ? key.bottom + 4 : bottom + 36,
    title: view.title,
    description: describe(model, view, reach),
    content: (
      <>
        {names.content && <g transform={`translate(${LEFT},0)`}>{names.content}</g>}
        {panels.map((panel, i) => (
          <g transform={`translate(0,${names.height + i * step})`}>{stripPanel(model, view, panel, LEFT, TITLE)}</g>
        ))}
        <g transform={`translate(${LEFT},${bottom - GAP})`}>{stripAxis(view, first)}</g>
        {key?.content}
      </>
    ),
    walk: { along: [first.from, first.to], x: [LEFT, LEFT + inner], y: null },
  };
}

/** Metres to both sides that all rows show: enough for all but the wildest offsets, which are marked at the edge. */
function offsetReach({ sections }: ReportModel, rows: readonly StripRow[]): number {
  const sizes = offsetSizes(
    rows.flatMap(({ strands, from, to }) => strands.flatMap((strand) => offsetRuns(strand, from, to))),
  );
  const corridor = Math.max(
    2,
    ...sections
      .filter(({ from, to }) => rows.some((row) => from < row.to && to > row.from))
      .map((section) => section.halfWidth ?? 0),
  );
  let most = 0;
  for (let i = 0; i < sizes.length; i++) most = Math.max(most, sizes[i]);
  const usual = sizes.length > 0 ? 1.5 * quantileIn(sizes, 0.98) : 0;
  return nice(0, Math.max(1.25 * corridor, Math.min(1.08 * most, usual)), 4)[1];
}

function describe({ sections, runs }: ReportModel, { rows, places }: StripView, reach: number): string {
  const corridor = sections.some(({ halfWidth }) => halfWidth !== null);
  const doubt = sections.some(({ lateral95 }) => lateral95 !== null);
  const [{ from, to }] = rows;
  return [
    `Metres left (up) and right (down) of the route against metres along it, ${showStretch(from, to)},`,
    `${rows.map(({ label }) => label).join('; ')}, each to ${showAlong(reach)} aside.`,
    corridor && 'The wide band is the corridor.',
    doubt && 'The narrow band is the uncertainty of the reference itself.',
    'Where a line is broken there was no usable fix.',
    rows.some(({ strands }) => strands.some(isSideless)) &&
      'A recording against the direction of the route has no sides: its distance is drawn to both.',
    runs.length > 1 && 'Runs are drawn from thin to thick, their names on their lines.',
    places.length > 0 && 'Numbers are the worst places.',
  ]
    .filter(Boolean)
    .join(' ');
}

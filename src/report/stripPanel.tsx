import { ticks } from 'd3-array';
import { type Content, element, fragment } from './element';
import { isSideless } from './isSideless';
import type { LinearScale } from './linearScale';
import { linePath } from './linePath';
import { offsetRuns } from './offsetRuns';
import { receiverMarker } from './receiverLooks';
import type { ReportModel } from './reportModel';
import type { StripPanel, StripView } from './StripView';
import { showNumber } from './showFigures';
import { strandLine } from './strandLine';
import { stripMarks } from './stripMarks';
import { shortened } from './textWidth';

/** One panel of a strip chart with its title above it, its metres to the sides at its left: `left` and `top` pixels are theirs. */
export function stripPanel(
  model: ReportModel,
  view: StripView,
  panel: StripPanel & { readonly y: LinearScale },
  left: number,
  top: number,
): Content {
  const { y, width, height, reach, strands } = panel;
  const shown = ticks(...y.domain, height < 90 ? 3 : 4).filter((tick) => Math.abs(tick) <= reach);
  const single = new Set(strands.map(({ receiver }) => receiver)).size === 1;
  return (
    <>
      {single && receiverMarker(strands[0].receiver, left + 6, 8)}
      <text class="dl-strong" x={left + (single ? 16 : 0)} y={12}>
        {shortened(panel.label, width - 20)}
      </text>
      <svg x={left} y={top} width={width} height={height} overflow="hidden">
        {bands(model, view, panel)}
        <path class="dl-axis" d={`M0,${y(0)}H${width}`} />
        {model.route.decoyOffsets && companion(model, model.route.decoyOffsets, panel)}
        {strands.map((strand) => strandLine(model, strand, panel))}
        {model.route.excluded
          .filter(({ from, to }) => from < panel.to && to > panel.from)
          .map((stretch) => (
            <rect class="dl-out" y={0} height={height} {...within(panel, stretch)} />
          ))}
        {stripMarks(model, panel, view.places)}
      </svg>
      <path class="dl-axis" d={shown.map((tick) => `M${left - 4},${(top + y(tick)).toFixed(1)}h4`).join('')} />
      <g class="dl-small" text-anchor="end">
        {shown.map((tick) => (
          <text class="dl-soft" x={left - 6} y={(top + y(tick)).toFixed(1)} dy=".35em">
            {showNumber(Math.abs(tick), 0)}
          </text>
        ))}
      </g>
      {sideWords(strands)
        .map((word, i) => ({ word, at: top + (i === 0 ? 0.25 : 0.75) * height }))
        .map(({ word, at }) => (
          <text
            class="dl-soft dl-strong"
            font-size={Math.min(9, height / 8)}
            transform={`translate(10,${at.toFixed(1)}) rotate(-90)`}
            text-anchor="middle"
          >
            {word}
          </text>
        ))}
      <rect class="dl-axis" x={left} y={top} width={width} height={height} />
    </>
  );
}

/**
 * What lies above the line and what below, as the traveller sees it. Whoever went against the route has it the other way
 * round: nothing of theirs has a side.
 */
function sideWords(strands: StripPanel['strands']): readonly [above: string, below: string] {
  const sideless = strands.filter(isSideless).length;
  return sideless > 0 && sideless === strands.length ? ['ASIDE', 'ASIDE'] : ['LEFT', 'RIGHT'];
}

/** Of each section every second one's ground, its corridor and the uncertainty of the reference. */
function bands({ sections }: ReportModel, view: StripView, panel: StripPanel): Content {
  const about = (half: number) => ({
    y: panel.y(-half).toFixed(1),
    height: (panel.y(half) - panel.y(-half)).toFixed(1),
  });
  return sections
    .filter(({ from, to }) => from < panel.to && to > panel.from)
    .map((section, i) => {
      const { halfWidth, lateral95 } = section;
      const along = within(panel, section);
      return (
        <>
          {view.sections === 'named' && i % 2 === 0 && <rect class="dl-band" y={0} height={panel.height} {...along} />}
          {halfWidth !== null && <rect class="dl-corridor" {...about(halfWidth)} {...along} />}
          {lateral95 !== null && <rect class="dl-doubt" {...about(lateral95)} {...along} />}
        </>
      );
    });
}

/** The line that was given to compare with. */
function companion({ assessments: [{ route }] }: ReportModel, offsets: readonly (number | null)[], panel: StripPanel) {
  const runs = offsetRuns({ assessment: { route }, recording: { offsets } }, panel.from, panel.to);
  const d = runs.map(({ along, offset }) => linePath({ x: along.map(panel.x), y: offset.map(panel.y) })).join('');
  return <path class="dl-aside" d={d} />;
}

/** Where a stretch lies in the panel, from its left edge to its right. */
function within({ x, from, to }: StripPanel, stretch: { readonly from: number; readonly to: number }) {
  const [left, right] = [x(Math.max(stretch.from, from)), x(Math.min(stretch.to, to))];
  return { x: left.toFixed(1), width: Math.max(0, right - left).toFixed(1) };
}

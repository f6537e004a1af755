import { nice, ticks } from 'd3-array';
import { drawKey } from './drawKey';
import { type Content, element, fragment } from './element';
import { Label } from './Label';
import { boxAbout } from './labelBox';
import { linearScale } from './linearScale';
import { linePath } from './linePath';
import { offsetRuns } from './offsetRuns';
import { offsetSizes } from './offsetSizes';
import type { Picture } from './Picture';
import { placeLabels } from './placeLabels';
import { receiverMarker, strandLooks } from './receiverLooks';
import type { ReportModel, Strand } from './reportModel';
import type { Point } from './routePlane';
import { runTags } from './runTags';
import { showMetres, showNumber, showShare } from './showFigures';
import { textWidth } from './textWidth';
import { traceOf } from './traceOf';

/** What of a distribution to draw. */
export interface DistributionView {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly from: number;
  readonly to: number;
  /** Metres; a line is drawn there. */
  readonly corridor: number | null;
  /** Names of the runs beside their curves. */
  readonly runs: 'named' | 'none';
  readonly key: 'below' | 'none';
}

const LEFT_MARGIN = 44;
const TOP = 6;

/** Share of the covered metres that lie no further off than so many metres: each metre of the route counts once. */
export function drawDistribution(model: ReportModel, view: DistributionView): Picture {
  const { width, height, title, from, to, corridor } = view;
  const inner = width - LEFT_MARGIN - 14;
  const depth = height - TOP - 36;
  const columns = model.strands.map((strand) => ({
    strand,
    sizes: offsetSizes(offsetRuns(strand, from, to)).sort(),
  }));
  const far = columns.reduce((most, { sizes }) => Math.max(most, sizes[Math.floor(0.99 * sizes.length)] ?? 0), 0);
  const x = linearScale(nice(0, Math.max(1, 1.2 * (corridor ?? 0), far), 5), [0, inner]);
  const [, end] = x.domain;
  const shown = ticks(...x.domain, Math.max(2, Math.floor(inner / 60)));
  const y = linearScale([0, 1], [depth, 0]);
  const curves = columns
    .filter(({ sizes }) => sizes.length > 0)
    .map((column) => ({ ...column, points: cumulative(column.sizes, x, y, end) }));
  const spots = curves.flatMap(({ strand, sizes }, i) => {
    const share = 0.5 + (0.4 * (i + 0.5)) / curves.length;
    const size = sizes[Math.floor(share * sizes.length)];
    return size > end ? [] : [{ strand, at: [x(size), y(share)] as Point }];
  });
  const markers = spots.map(({ strand, at }) => receiverMarker(strand.receiver, at[0], at[1], 8));
  const runs =
    view.runs === 'named' && model.runs.length > 1 ? runsBeside(model, spots, { width: inner, height: depth }) : null;
  const key = drawKey(view.key, model, model.receivers, { left: LEFT_MARGIN, top: height + 4, width: inner });
  const corridorSpot =
    corridor === null
      ? undefined
      : placeLabels(
          [{ at: [x(corridor), depth - 10], width: 76, height: 14, towards: [1, 0] }],
          { width: inner, height: depth },
          curves.flatMap(({ points }) => points),
        )[0];
  return {
    width,
    height: key?.bottom ?? height,
    title,
    description: describe(
      curves.map(({ strand, sizes }) => ({ label: strand.label, sizes })),
      corridor,
    ),
    content: (
      <>
        <g transform={`translate(${LEFT_MARGIN},${TOP})`}>
          {corridor !== null && <rect class="dl-corridor" x={0} y={0} width={x(corridor).toFixed(1)} height={depth} />}
          {[0.5, 0.68, 0.95].map((share) => (
            <>
              <path class="dl-rule" d={`M0,${y(share).toFixed(1)}H${inner}`} />
              <text class="dl-small dl-soft" x={-6} y={y(share).toFixed(1)} dy=".35em" text-anchor="end">
                {showShare(share)}
              </text>
            </>
          ))}
          {corridor !== null && <path class="dl-edge" d={`M${x(corridor).toFixed(1)},0V${depth}`} />}
          {curves.map(({ strand, points }) => (
            <path {...strandLooks(model, strand)} d={linePath(traceOf(points))} />
          ))}
          {markers}
          {runs}
          {corridorSpot && (
            <Label at={corridorSpot} looks="dl-small dl-soft">
              corridor
            </Label>
          )}
          <path class="dl-axis" d={`M0,0V${depth}H${inner}`} />
          <path class="dl-axis" d={shown.map((tick) => `M${x(tick).toFixed(1)},${depth}v4`).join('')} />
          {shown.map((tick) => (
            <text class="dl-small dl-soft" x={x(tick).toFixed(1)} y={depth + 16} text-anchor="middle">
              {showNumber(tick, tick % 1 === 0 ? 0 : 1)}
            </text>
          ))}
          <text class="dl-small dl-soft" x={inner / 2} y={depth + 31} text-anchor="middle">
            no further off than … metres
          </text>
        </g>
        {key?.content}
      </>
    ),
  };
}

/** The runs' names beside the markers of their curves, those left out that would cover another. */
function runsBeside(
  model: ReportModel,
  spots: readonly { readonly strand: Strand; readonly at: Point }[],
  room: { readonly width: number; readonly height: number },
): Content {
  const tags = runTags(model);
  const wanted = spots.map(({ strand, at }) => ({
    at,
    width: textWidth(tags.get(strand.run)!, 10),
    height: 10,
    towards: [1, 0] as Point,
  }));
  const rings = spots.map(({ at }) => boxAbout(at, 4));
  return placeLabels(
    wanted,
    room,
    spots.map(({ at }) => at),
    rings,
  ).map(
    (spot, i) =>
      spot &&
      Math.hypot(spot[0] - spots[i].at[0], spot[1] - spots[i].at[1]) < wanted[i].width && (
        <Label at={spot} looks="dl-run">
          {tags.get(spots[i].strand.run)}
        </Label>
      ),
  );
}

function cumulative(sizes: Float64Array, x: (v: number) => number, y: (v: number) => number, end: number): Point[] {
  const points: Point[] = [[0, y(0)]];
  const step = Math.max(1, Math.floor(sizes.length / 400));
  for (let i = 0; i < sizes.length; i += step) {
    if (sizes[i] > end) break;
    points.push([x(sizes[i]), y((i + 1) / sizes.length)]);
  }
  const last = sizes[sizes.length - 1];
  if (last <= end) points.push([x(last), y(1)], [x(end), y(1)]);
  return points;
}

function describe(curves: readonly { label: string; sizes: Float64Array }[], corridor: number | null): string {
  const at = (sizes: Float64Array, share: number) =>
    sizes[Math.min(sizes.length - 1, Math.floor(share * sizes.length))];
  return [
    'Share of the covered metres no further off than so many metres.',
    ...curves.map(
      ({ label, sizes }) =>
        `${label}: half within ${showMetres(at(sizes, 0.5))}, 68 % within ${showMetres(at(sizes, 0.68))}, 95 % within ${showMetres(at(sizes, 0.95))}.`,
    ),
    corridor === null ? '' : `The corridor ends at ${showMetres(corridor)}.`,
  ]
    .filter(Boolean)
    .join(' ');
}

import { quantileIn } from '../statistics';
import { drawKey } from './drawKey';
import { element, fragment } from './element';
import { isSideless } from './isSideless';
import { linePath } from './linePath';
import { boxAround, mapFrame, roundBelow } from './mapFrame';
import { type OffsetRun, offsetRuns } from './offsetRuns';
import { offsetSizes } from './offsetSizes';
import { Painted } from './Painted';
import type { Picture } from './Picture';
import { peaksOf } from './peaksOf';
import { receiverLooks, strandLooks } from './receiverLooks';
import type { Receiver, ReportModel, Strand } from './reportModel';
import type { RoutePlane } from './routePlane';
import { routeSpots } from './routeSpots';
import { showList, showMetres } from './showFigures';
import { thereAndBack } from './thereAndBack';

/** Pixels left free at the edges of the map. */
const MARGIN = 14;

/** How many times their true size the offsets must be drawn to be seen: 95 % of them within a sixteenth of the map. */
export function ribbonExaggeration(model: ReportModel, plane: RoutePlane): number {
  const sizes = offsetSizes(model.strands.flatMap((strand) => offsetRuns(strand, 0, model.route.length)));
  const typical = sizes.length > 0 ? quantileIn(sizes, 0.95) : 1;
  const { west, east, south, north } = boxAround([plane.line], 0);
  return Math.max(1, roundBelow(Math.max(east - west, north - south) / 16 / Math.max(typical, 0.1)));
}

/**
 * The route from above with one receiver's offsets exaggerated, as a ribbon on the side it strayed to: errors of metres
 * can't be seen on a plan of kilometres.
 */
export function drawRibbon(
  model: ReportModel,
  plane: RoutePlane,
  view: {
    readonly width: number;
    readonly title: string;
    readonly receivers: readonly Receiver[];
    readonly exaggeration: number;
    readonly key: 'below' | 'none';
  },
): Picture {
  const { route } = model;
  const { width, title, receivers, exaggeration } = view;
  const strands = model.strands.filter(({ receiver }) => receivers.includes(receiver));
  const limits = { least: 0.35 * width, most: 1.1 * width };
  // half a pixel of the map without its ribbons: with them it is no larger
  const cell = 0.5 / mapFrame(boxAround([plane.line], 0), width, limits, MARGIN).scale;
  const ribbons = strands.map((strand) => ({
    strand,
    pieces: offsetRuns(strand, 0, route.length).map((run) => ribbon(peaksOf(run, 0, cell), plane, exaggeration)),
  }));
  const outers = ribbons.flatMap(({ pieces }) => pieces.map(({ outer }) => outer));
  const frame = mapFrame(boxAround([plane.line, ...outers], 0), width, limits, MARGIN);
  // of a ribbon that goes round and round what can be seen
  const drawn = ribbons.map(({ strand, pieces }) => {
    const painted = new Painted(width, frame.height);
    const seen = pieces.map(({ inner, outer }) =>
      painted.add(frame.traceToPixels(outer)).map(([begin, end]) => ({
        inner: frame.traceToPixels(inner, begin, end),
        outer: frame.traceToPixels(outer, begin, end),
      })),
    );
    return { strand, seen };
  });
  const key = drawKey(view.key, model, receivers, { left: 8, top: frame.height + 8, width: width - 16 });
  const aside = Math.min(10, roundBelow(frame.height / 3 / exaggeration / frame.scale));
  return {
    width,
    height: key ? key.bottom + 2 : frame.height,
    title,
    description:
      `North is up. Offsets of ${showList(receivers.map(({ label }) => label)) || 'no recording'} drawn ${exaggeration} times too wide, ` +
      `on the side they lie on; the route itself at its scale.${
        strands.some(isSideless) ? ' A recording against its direction has no sides: drawn to both.' : ''
      }`,
    content: (
      <>
        {drawn.map(({ strand, seen }) =>
          seen.map((stretches) => (
            <path
              {...areaLooks(strand)}
              d={stretches.map(({ inner, outer }) => `${linePath(thereAndBack(outer, inner))}Z`).join('')}
            />
          )),
        )}
        <path
          class="dl-reference"
          stroke-width={1.4}
          d={linePath(frame.traceToPixels(plane.line), new Painted(width, frame.height))}
        />
        {drawn.map(({ strand, seen }) => (
          <path
            {...strandLooks(model, strand)}
            d={seen
              .flat()
              .map(({ outer }) => linePath(outer))
              .join('')}
          />
        ))}
        {frame.furniture}
        {key?.content}
        <g transform={`translate(${width - 24},${frame.height - 12})`}>
          <path
            class="dl-axis"
            stroke-width={1.5}
            d={`M5,0h-5V${(-aside * exaggeration * frame.scale).toFixed(1)}h5`}
          />
          <text class="dl-halo dl-small" x={-5} y={-2} text-anchor="end">
            {showMetres(aside)} aside
          </text>
        </g>
      </>
    ),
    walk: routeSpots(plane, route.length, frame),
  };
}

function ribbon({ along, offset }: OffsetRun, plane: RoutePlane, exaggeration: number) {
  const inner = { x: new Float64Array(along.length), y: new Float64Array(along.length) };
  const outer = { x: new Float64Array(along.length), y: new Float64Array(along.length) };
  for (let i = 0; i < along.length; i++) {
    const n = offset[i];
    const on = plane.at(along[i]);
    const right = plane.right(along[i], Math.max(5, Math.abs(n) * 0.5 * exaggeration));
    [inner.x[i], inner.y[i]] = on;
    outer.x[i] = on[0] + right[0] * n * exaggeration;
    outer.y[i] = on[1] + right[1] * n * exaggeration;
  }
  return { inner, outer };
}

function areaLooks({ receiver }: Strand) {
  const { fill } = receiverLooks(receiver);
  return { ...fill, class: ['dl-area', fill.class].filter(Boolean).join(' ') };
}

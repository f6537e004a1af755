import { nice, ticks } from 'd3-array';
import { quantileIn } from '../statistics';
import { type Content, element, fragment } from './element';
import { type LinearScale, linearScale } from './linearScale';
import { linePath } from './linePath';
import type { Picture } from './Picture';
import { receiverLooks, receiverMarker, runWidth } from './receiverLooks';
import type { Receiver } from './reportModel';
import type { Point } from './routePlane';
import { showDuration, showNumber, showStretch } from './showFigures';
import { shortened } from './textWidth';
import type { TimedStrand } from './timedStrands';
import { traceOf } from './traceOf';

/** What errors are drawn against: seconds from the beginning of the truth, or metres along the route. */
export type ClockAxis = 'time' | 'route';

/** What of the errors by the clock to draw. */
export interface ClockView {
  readonly width: number;
  readonly axis: ClockAxis;
  readonly receivers: readonly Receiver[];
}

const LEFT = 42;
const RIGHT = 10;
const TITLE = 17;
const HEIGHT = 58;
const GAP = 6;
/** So many corners are drawn in all, and no more than one and a half a pixel of a line: nobody sees more. */
const MOST_CORNERS = 30_000;
const FINEST = 1.5;

const components = {
  along: { ends: ['AHEAD', 'BEHIND'], sign: 1 },
  across: { ends: ['LEFT', 'RIGHT'], sign: -1 },
} as const;
type Component = keyof typeof components;

/**
 * Errors along and across by the second, a panel of each for every receiver: ahead of the true place above the line, behind
 * it below; left above, right below, as the traveller looks. No line where there is no fix, and none while standing.
 */
export function drawClock(strands: readonly TimedStrand[], runs: readonly (string | null)[], view: ClockView): Picture {
  const { width, axis, receivers } = view;
  const inner = width - LEFT - RIGHT;
  const shown = strands.filter(({ receiver }) => receivers.includes(receiver));
  const end = Math.max(
    1,
    ...shown.map((strand) => placeAt(strand, axis).reduce<number>((a, b) => Math.max(a, b ?? 0), 0)),
  );
  const x = linearScale([0, end], [0, inner]);
  const cell = Math.max(1 / FINEST, (4 * shown.length * inner) / MOST_CORNERS);
  const panels = receivers.flatMap((receiver) => (['along', 'across'] as const).map((kind) => ({ receiver, kind })));
  const reach = { along: reachOf(shown, 'along'), across: reachOf(shown, 'across') };
  const step = TITLE + HEIGHT + GAP;
  const bottom = panels.length * step;
  return {
    width,
    height: bottom + 36,
    title: `Errors by the second against ${axis === 'time' ? 'time' : 'the route'}`,
    description: describe(view, shown, end, reach),
    content: (
      <>
        {panels.map(({ receiver, kind }, i) => {
          const y = linearScale([reach[kind], -reach[kind]], [0, HEIGHT]);
          const mine = shown.filter((strand) => strand.receiver === receiver);
          return (
            <g transform={`translate(0,${i * step})`}>
              {receiverMarker(receiver, LEFT + 6, 8)}
              <text class="dl-strong" x={LEFT + 16} y={12}>
                {shortened(receiver.label, inner - 120)}, {kind}
              </text>
              <svg x={LEFT} y={TITLE} width={inner} height={HEIGHT} overflow="hidden">
                {doubtBand(mine, inner, y)}
                <path class="dl-axis" d={`M0,${y(0)}H${inner}`} />
                {mine.map((strand) => (
                  <path
                    {...receiverLooks(receiver).line}
                    stroke-width={runWidth({ runs }, strand.run)}
                    d={errorPath(strand, kind, axis, x, y, cell)}
                  />
                ))}
              </svg>
              {frame(kind, y, inner)}
            </g>
          );
        })}
        <g transform={`translate(${LEFT},${bottom - GAP})`}>{axisBelow(axis, end, inner)}</g>
      </>
    ),
    ...(axis === 'route' ? { walk: { along: [0, end], x: [LEFT, LEFT + inner], y: null } } : {}),
  };
}

function frame(kind: Component, y: LinearScale, inner: number): Content {
  const [above, below] = components[kind].ends;
  return (
    <>
      {ticks(y.domain[1], y.domain[0], 3).map((tick) => (
        <>
          <path class="dl-axis" d={`M${LEFT - 4},${(TITLE + y(tick)).toFixed(1)}h4`} />
          <text class="dl-small dl-soft" x={LEFT - 6} y={(TITLE + y(tick)).toFixed(1)} dy=".35em" text-anchor="end">
            {showNumber(Math.abs(tick), Math.abs(tick) % 1 === 0 ? 0 : 1)}
          </text>
        </>
      ))}
      {[
        { word: above, at: 0.23 },
        { word: below, at: 0.77 },
      ].map(({ word, at }) => (
        <text
          class="dl-soft dl-strong"
          font-size={6}
          transform={`translate(10,${(TITLE + at * HEIGHT).toFixed(1)}) rotate(-90)`}
          text-anchor="middle"
        >
          {word}
        </text>
      ))}
      <rect class="dl-axis" x={LEFT} y={TITLE} width={inner} height={HEIGHT} />
    </>
  );
}

/** Within what the truth itself is unsure of, nothing is told. */
function doubtBand(strands: readonly TimedStrand[], inner: number, y: LinearScale): Content {
  const doubt = Math.max(0, ...strands.map(({ rows }) => rows.get(null)?.doubt95 ?? 0));
  const height = y(-doubt) - y(doubt);
  return (
    height >= 0.5 && <rect class="dl-doubt" x={0} y={y(doubt).toFixed(1)} width={inner} height={height.toFixed(1)} />
  );
}

/** By second, seconds from the beginning of the truth or metres along the route; null where it was not on it. */
function placeAt({ timed: { truth } }: TimedStrand, axis: ClockAxis): readonly (number | null)[] {
  return axis === 'route' ? truth.alongTrack : truth.known.map((_, second) => second + 0.5);
}

/** The line of an error by the least and the greatest of each cell of pixels: no peak is lost. */
function errorPath(
  strand: TimedStrand,
  kind: Component,
  axis: ClockAxis,
  x: LinearScale,
  y: LinearScale,
  cell: number,
): string {
  const places = placeAt(strand, axis);
  const errors = strand.recording[kind];
  const { sign } = components[kind];
  // a receiver of one fix in ten seconds has no gap between two of them
  const longest = Math.max(1, Math.ceil((strand.recording.usualInterval ?? 1) - 0.05));
  let path = '';
  let points: Point[] = [];
  let last = -1;
  let open = Number.NaN;
  let [least, most]: Point[] = [
    [0, 0],
    [0, 0],
  ];
  const close = () => {
    if (Number.isNaN(open)) return;
    points.push(...(least === most ? [least] : least[0] <= most[0] ? [least, most] : [most, least]));
    open = Number.NaN;
  };
  const end = () => {
    close();
    if (points.length === 1) points.push([points[0][0] + 0.5, points[0][1]]);
    path += linePath(traceOf(points));
    points = [];
  };
  errors.forEach((error, second) => {
    const place = places[second];
    if (error === null || place === null) return;
    if (last >= 0 && second - last > longest) end();
    last = second;
    const point: Point = [x(place), y(sign * error)];
    const mine = Math.floor(point[0] / cell);
    if (mine !== open) {
      close();
      open = mine;
      least = most = point;
    } else if (point[1] < least[1]) least = point;
    else if (point[1] > most[1]) most = point;
  });
  end();
  return path;
}

/** Metres to both sides that a panel shows: all but the wildest. */
function reachOf(strands: readonly TimedStrand[], kind: Component): number {
  const sizes = strands.flatMap(({ recording }) =>
    recording[kind].flatMap((error) => (error === null ? [] : Math.abs(error))),
  );
  const usual = sizes.length === 0 ? 0 : quantileIn(Float64Array.from(sizes), 0.98);
  const most = sizes.reduce((a, b) => Math.max(a, b), 0);
  return nice(0, Math.max(1, Math.min(1.08 * most, 1.5 * usual)), 3)[1];
}

function axisBelow(axis: ClockAxis, end: number, inner: number): Content {
  const minutes = axis === 'time' && end >= 180;
  const scale = linearScale([0, minutes ? end / 60 : end], [0, inner]);
  const words =
    axis === 'route' ? 'metres along the route' : `${minutes ? 'minutes' : 'seconds'} from the beginning of the truth`;
  return (
    <>
      {ticks(...scale.domain, Math.max(2, Math.floor(inner / 120))).map((tick) => {
        const at = scale(tick);
        return (
          <>
            <path class="dl-axis" d={`M${at.toFixed(1)},0v4`} />
            <text
              class="dl-small dl-soft"
              x={at.toFixed(1)}
              y={16}
              text-anchor={at < 12 ? 'start' : at > inner - 16 ? 'end' : 'middle'}
            >
              {showNumber(tick, tick % 1 === 0 ? 0 : 1)}
            </text>
          </>
        );
      })}
      <text class="dl-small dl-soft" x={inner / 2} y={31} text-anchor="middle">
        {words}
      </text>
    </>
  );
}

function describe(
  { axis, receivers }: ClockView,
  strands: readonly TimedStrand[],
  end: number,
  reach: Readonly<Record<Component, number>>,
): string {
  const doubt = strands.some(({ rows }) => (rows.get(null)?.doubt95 ?? 0) > 0);
  return [
    `For each receiver metres ahead of the true place (up) and behind it (down), to ${showNumber(reach.along, 1)} m, then left (up) and right (down), to ${showNumber(reach.across, 1)} m,`,
    axis === 'time' ? `over ${showDuration(end)}:` : `along ${showStretch(0, end)} of the route:`,
    `${receivers.map(({ label }) => label).join('; ')}.`,
    doubt && 'The band is the uncertainty of the truth itself.',
    'No line where there was no fix, nor while standing.',
  ]
    .filter(Boolean)
    .join(' ');
}

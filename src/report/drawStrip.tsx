import { quantile } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { drawBadge } from './drawBadge';
import { drawKey } from './drawKey';
import { type Content, element, fragment } from './element';
import { linePath } from './linePath';
import type { Markup } from './Markup';
import { type OffsetAt, offsetRuns } from './offsetRuns';
import type { Picture } from './Picture';
import { placeLabels } from './placeLabels';
import { receiverMarker, strandLooks } from './receiverLooks';
import type { Place, ReportModel, Strand } from './reportModel';
import type { Point } from './routePlane';
import { runLabels } from './runLabels';
import { showAlong, showMetres, showNumber, showStretch } from './showFigures';
import { shortened, textWidth } from './textWidth';

/** One panel of a strip chart. */
export interface StripRow {
  readonly label: string;
  readonly strands: readonly Strand[];
  /** Metres along-track; all rows of a chart are equally long or nearly so. */
  readonly from: number;
  readonly to: number;
}

/** What of a strip chart to draw. */
export interface StripView {
  readonly width: number;
  readonly title: string;
  readonly rows: readonly StripRow[];
  readonly rowHeight: number;
  readonly places: readonly Place[];
  /** Bands and names of the sections; a strip of one section needs none. */
  readonly sections: 'named' | 'none';
  /** Metres counted from the route's start, or from each row's own. */
  readonly count: 'from start' | 'from row';
  readonly key: 'below' | 'none';
}

const LEFT_MARGIN = 42;
const RIGHT_MARGIN = 10;
const ROW_TITLE = 17;
const ROW_GAP = 8;
const SECTION_LINE = 15;

/**
 * Cross-track against along-track, as the traveller looks: left of the route above the line, right below it. Gaps in a
 * recording are gaps in its line.
 */
export function drawStrip(model: ReportModel, view: StripView): Picture {
  const { width, rows, rowHeight } = view;
  const inner = width - LEFT_MARGIN - RIGHT_MARGIN;
  const reach = offsetReach(model, rows);
  const header = view.sections === 'named' ? sectionNames(model, rows[0], inner) : { height: 0, content: null };
  const panels: Markup[] = [];
  let top = header.height;
  for (const row of rows) {
    panels.push(<g transform={`translate(0,${top})`}>{panel(model, view, row, inner, reach)}</g>);
    top += ROW_TITLE + rowHeight + ROW_GAP;
  }
  const [first] = rows;
  const axis = alongAxis(view, first, inner);
  const receivers = model.receivers.filter((receiver) =>
    rows.some(({ strands }) => strands.some((s) => s.receiver === receiver)),
  );
  const key = view.key === 'below' ? drawKey(model, receivers, inner) : undefined;
  const keyTop = top + 36;
  return {
    width,
    height: keyTop + (key ? key.height + 4 : 0),
    title: view.title,
    description: describe(model, view, reach),
    content: [
      ...(header.content ? [<g transform={`translate(${LEFT_MARGIN},0)`}>{header.content}</g>] : []),
      ...panels,
      <g transform={`translate(${LEFT_MARGIN},${top - ROW_GAP})`}>{axis}</g>,
      ...(key ? [<g transform={`translate(${LEFT_MARGIN},${keyTop})`}>{key.content}</g>] : []),
    ],
    walk: { along: [first.from, first.to], x: [LEFT_MARGIN, LEFT_MARGIN + inner], y: null },
  };
}

/** Metres to both sides that all rows show: enough for all but the wildest offsets, which are marked at the edge. */
function offsetReach({ sections }: ReportModel, rows: readonly StripRow[]): number {
  const sizes = rows.flatMap(({ strands, from, to }) =>
    strands.flatMap((strand) => offsetRuns(strand, from, to).flatMap((run) => run.map(([, n]) => Math.abs(n)))),
  );
  const corridor = Math.max(
    2,
    ...sections
      .filter(({ from, to }) => rows.some((row) => from < row.to && to > row.from))
      .map((s) => s.halfWidth ?? 0),
  );
  const most = sizes.reduce((a, b) => Math.max(a, b), 0);
  const usual = 1.5 * (quantile(sizes, 0.98) ?? 0);
  return scaleLinear()
    .domain([0, Math.max(1.25 * corridor, Math.min(1.08 * most, usual))])
    .nice(4)
    .domain()[1];
}

function panel(model: ReportModel, view: StripView, row: StripRow, inner: number, reach: number): Content {
  const { rowHeight } = view;
  const x = scaleLinear().domain([row.from, row.to]).range([0, inner]);
  const y = scaleLinear().domain([-reach, reach]).range([0, rowHeight]);
  const between = (from: number, to: number) => ({
    x: x(Math.max(from, row.from)).toFixed(1),
    width: Math.max(0, x(Math.min(to, row.to)) - x(Math.max(from, row.from))).toFixed(1),
  });
  const sections = model.sections.filter(({ from, to }) => from < row.to && to > row.from);
  const ticks = y.ticks(rowHeight < 90 ? 3 : 4).filter((tick) => Math.abs(tick) <= reach);
  const marks = edgeMarks(row, x, reach);
  const written = numbersAndRuns(model, view, row, x, y, inner, marks);
  const single = new Set(row.strands.map(({ receiver }) => receiver)).size === 1;
  return (
    <>
      {single ? receiverMarker(row.strands[0].receiver, LEFT_MARGIN + 6, 8) : null}
      <text class="dl-strong" x={LEFT_MARGIN + (single ? 16 : 0)} y={12}>
        {shortened(row.label, inner - 20)}
      </text>
      <svg x={LEFT_MARGIN} y={ROW_TITLE} width={inner} height={rowHeight} overflow="hidden">
        {sections.map((section, i) => (
          <>
            {view.sections === 'named' && i % 2 === 0 ? (
              <rect class="dl-band" y={0} height={rowHeight} {...between(section.from, section.to)} />
            ) : null}
            {section.halfWidth === null ? null : (
              <rect
                class="dl-corridor"
                y={y(-section.halfWidth).toFixed(1)}
                height={(y(section.halfWidth) - y(-section.halfWidth)).toFixed(1)}
                {...between(section.from, section.to)}
              />
            )}
            {section.lateral95 === null ? null : (
              <rect
                class="dl-doubt"
                y={y(-section.lateral95).toFixed(1)}
                height={(y(section.lateral95) - y(-section.lateral95)).toFixed(1)}
                {...between(section.from, section.to)}
              />
            )}
          </>
        ))}
        <path class="dl-axis" d={`M0,${y(0)}H${inner}`} />
        {model.route.decoyOffsets && companion(model, model.route.decoyOffsets, row, x, y)}
        {row.strands.map((strand) => strandLine(model, strand, row, x, y, inner))}
        {model.route.excluded
          .filter(({ from, to }) => from < row.to && to > row.from)
          .map(({ from, to }) => (
            <rect class="dl-out" y={0} height={rowHeight} {...between(from, to)} />
          ))}
        {drawEdgeMarks(marks, rowHeight)}
        {written.badges}
        {written.runs}
      </svg>
      {ticks.map((tick) => (
        <>
          <path class="dl-axis" d={`M${LEFT_MARGIN - 4},${(ROW_TITLE + y(tick)).toFixed(1)}h4`} />
          <text
            class="dl-small dl-soft"
            x={LEFT_MARGIN - 6}
            y={(ROW_TITLE + y(tick)).toFixed(1)}
            dy=".35em"
            text-anchor="end"
          >
            {showNumber(Math.abs(tick), 0)}
          </text>
        </>
      ))}
      {[
        { word: 'LEFT', at: 0.25 },
        { word: 'RIGHT', at: 0.75 },
      ].map(({ word, at }) => (
        <text
          class="dl-soft dl-strong"
          font-size={9}
          transform={`translate(10,${(ROW_TITLE + at * rowHeight).toFixed(1)}) rotate(-90)`}
          text-anchor="middle"
        >
          {word}
        </text>
      ))}
      <rect class="dl-axis" x={LEFT_MARGIN} y={ROW_TITLE} width={inner} height={rowHeight} />
    </>
  );
}

type Scale = (value: number) => number;

/** The highest and lowest offset of each pixel: no peak is lost however long the route is. */
function strandLine(
  model: ReportModel,
  strand: Strand,
  { from, to }: StripRow,
  x: Scale,
  y: Scale,
  inner: number,
): Markup {
  const step = (to - from) / Math.max(1, inner * 1.5);
  const d = offsetRuns(strand, from, to)
    .map((run) => {
      const points: Point[] = [];
      for (let i = 0; i < run.length; ) {
        const cell = Math.floor((run[i][0] - from) / step);
        let [least, most]: OffsetAt[] = [run[i], run[i]];
        for (; i < run.length && Math.floor((run[i][0] - from) / step) === cell; i++) {
          if (run[i][1] < least[1]) least = run[i];
          if (run[i][1] > most[1]) most = run[i];
        }
        const both = least[0] <= most[0] ? [least, most] : [most, least];
        for (const [s, n] of least === most ? [least] : both) points.push([x(s), y(n)]);
      }
      if (points.length === 1) points.push([points[0][0] + 0.5, points[0][1]]);
      return linePath(points);
    })
    .join('');
  return <path {...strandLooks(model, strand)} d={d} />;
}

function companion(
  model: ReportModel,
  offsets: readonly (number | null)[],
  row: StripRow,
  x: Scale,
  y: Scale,
): Content {
  const { bins } = model.route;
  const pieces: Point[][] = [[]];
  offsets.forEach((offset, i) => {
    const middle = (bins[i] + bins[i + 1]) / 2;
    if (middle < row.from || middle > row.to) return;
    if (offset === null) pieces.push([]);
    else pieces.at(-1)!.push([x(middle), y(offset)]);
  });
  return <path class="dl-aside" d={pieces.map((piece) => linePath(piece)).join('')} />;
}

interface EdgeMark {
  readonly x: number;
  readonly offset: number;
  /** Side of the arrow head its figure is written on. */
  readonly writes: 'after' | 'before';
}

/** Where an offset is further off than the panel shows: the worst of each run of such offsets, none closer than 50 px. */
function edgeMarks(row: StripRow, x: Scale, reach: number): EdgeMark[] {
  const marks: OffsetAt[] = [];
  for (const strand of row.strands) {
    for (const run of offsetRuns(strand, row.from, row.to)) {
      let worst: OffsetAt | undefined;
      for (const at of [...run, [Infinity, 0] as const]) {
        if (Math.abs(at[1]) > reach) worst = worst && Math.abs(worst[1]) >= Math.abs(at[1]) ? worst : at;
        else if (worst) {
          marks.push(worst);
          worst = undefined;
        }
      }
    }
  }
  marks.sort((a, b) => Math.abs(b[1]) - Math.abs(a[1]));
  const kept: EdgeMark[] = [];
  for (const [s, offset] of marks) {
    if (kept.some((mark) => Math.abs(mark.x - x(s)) < 50)) continue;
    kept.push({ x: x(s), offset, writes: x(s) < x(row.to) - 70 ? 'after' : 'before' });
  }
  return kept;
}

/** Arrow heads at the edge with the figures that don't fit. */
function drawEdgeMarks(marks: readonly EdgeMark[], rowHeight: number): Content {
  return marks.map(({ x, offset, writes }) => (
    <>
      <path
        class="dl-solid"
        d={offset < 0 ? `M${x.toFixed(1)},2l-4,7h8z` : `M${x.toFixed(1)},${rowHeight - 2}l-4,-7h8z`}
      />
      <text
        class="dl-halo dl-small"
        x={(x + (writes === 'after' ? 7 : -7)).toFixed(1)}
        y={offset < 0 ? 10 : rowHeight - 4}
        text-anchor={writes === 'after' ? 'start' : 'end'}
      >
        to {showMetres(Math.abs(offset))}
      </text>
    </>
  ));
}

/** Numbers of the worst places, and the names of the runs where they leave room. */
function numbersAndRuns(
  model: ReportModel,
  { places, rowHeight }: StripView,
  row: StripRow,
  x: Scale,
  y: Scale,
  inner: number,
  marks: readonly EdgeMark[],
): { readonly badges: Content; readonly runs: Content } {
  const here = places.flatMap(({ number, strayings }) => {
    const mine = strayings.find(
      ({ strand, excursion }) =>
        row.strands.includes(strand) && excursion.peakAt >= row.from && excursion.peakAt <= row.to,
    );
    return mine ? [{ number, excursion: mine.excursion }] : [];
  });
  const room = { width: inner, height: rowHeight };
  const figures = marks.map(({ x: at, offset, writes }) => ({
    left: writes === 'after' ? at - 5 : at - 75,
    right: writes === 'after' ? at + 75 : at + 5,
    top: offset < 0 ? 0 : rowHeight - 14,
    bottom: offset < 0 ? 14 : rowHeight,
  }));
  const spots = placeLabels(
    here.map(({ excursion: { peakAt, peak } }) => ({
      at: [x(peakAt), Math.min(rowHeight - 12, Math.max(12, y(peak)))] as Point,
      width: 18,
      height: 18,
      towards: [0, peak < 0 ? -1 : 1] as Point,
    })),
    room,
    [],
    figures,
    'set anyhow',
  );
  const rings = spots.flatMap((spot) =>
    spot ? [{ left: spot[0] - 9, right: spot[0] + 9, top: spot[1] - 9, bottom: spot[1] + 9 }] : [],
  );
  return {
    badges: here.map(({ number }, i) => spots[i] && drawBadge(number, spots[i][0], spots[i][1])),
    runs: runLabels(model, row.strands, row, x, y, room, [...figures, ...rings]),
  };
}

/** Names over their bands, in as many lines as they need; a name that would need a fifth line is left out. */
function sectionNames(model: ReportModel, row: StripRow, inner: number): { height: number; content: Content } {
  const x = scaleLinear().domain([row.from, row.to]).range([0, inner]);
  const ends: number[] = [];
  const named = model.sections
    .filter(({ from, to }) => from < row.to && to > row.from)
    .flatMap((section) => {
      const text = shortened(section.name, 180, 11);
      const needed = textWidth(text, 11) + 8;
      const at = Math.max(0, Math.min(x(Math.max(section.from, row.from)) + 3, inner - needed));
      const line = [0, 1, 2, 3].find((k) => (ends[k] ?? -Infinity) <= at);
      if (line === undefined) return [];
      ends[line] = at + needed;
      return [{ text, at, line, edge: x(Math.max(section.from, row.from)) }];
    });
  const lines = ends.length;
  return {
    height: lines * SECTION_LINE + (lines > 0 ? 4 : 0),
    content: named.map(({ text, at, line, edge }) => (
      <>
        <path class="dl-rule" d={`M${edge.toFixed(1)},${line * SECTION_LINE + 2}V${lines * SECTION_LINE + 20}`} />
        <text class="dl-small" x={at.toFixed(1)} y={line * SECTION_LINE + 11}>
          {text}
        </text>
      </>
    )),
  };
}

function alongAxis({ count }: StripView, { from, to }: StripRow, inner: number): Content {
  const base = count === 'from start' ? 0 : from;
  const scale = scaleLinear()
    .domain([from - base, to - base])
    .range([0, inner]);
  const ticks = scale.ticks(Math.max(2, Math.floor(inner / 90)));
  return (
    <>
      {ticks.map((tick) => (
        <>
          <path class="dl-axis" d={`M${scale(tick).toFixed(1)},0v4`} />
          <text
            class="dl-small dl-soft"
            x={scale(tick).toFixed(1)}
            y={16}
            text-anchor={scale(tick) < 12 ? 'start' : scale(tick) > inner - 16 ? 'end' : 'middle'}
          >
            {showNumber(tick, 0)}
          </text>
        </>
      ))}
      <text class="dl-small dl-soft" x={inner / 2} y={31} text-anchor="middle">
        {count === 'from start' ? 'metres along the route' : 'metres from the beginning of the stretch'}
      </text>
    </>
  );
}

function describe({ sections, runs }: ReportModel, { rows, places }: StripView, reach: number): string {
  const corridor = sections.some(({ halfWidth }) => halfWidth !== null);
  const doubt = sections.some(({ lateral95 }) => lateral95 !== null);
  const [{ from, to }] = rows;
  return [
    `Metres left (up) and right (down) of the route against metres along it, ${showStretch(from, to)},`,
    `${rows.map(({ label }) => label).join('; ')}, each to ${showAlong(reach)} aside.`,
    corridor ? 'The wide band is the corridor.' : '',
    doubt ? 'The narrow band is the uncertainty of the reference itself.' : '',
    'Where a line is broken there was no usable fix.',
    runs.length > 1 ? 'Runs are drawn from thin to thick, their names on their lines.' : '',
    places.length > 0 ? 'Numbers are the worst places.' : '',
  ]
    .filter(Boolean)
    .join(' ');
}

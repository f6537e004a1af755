import { scaleLinear } from 'd3-scale';
import { dataTable, type TableRow } from './dataTable';
import { type Content, element, fragment } from './element';
import { type ReceiverFigures, receiverFigures } from './receiverFigures';
import { receiverLooks, receiverMarker } from './receiverLooks';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { orderSentences } from './sectionFindings';
import { showInterval, showMetres, showOffset, showShare, showStretch } from './showFigures';

/** Receiver by section: how far off on average, how sure, to which side, and which can't be told apart. */
export function figuresPart(model: ReportModel): Content {
  const { receivers, sections, route } = model;
  const stretches = [
    ...sections.map(({ name, from, to, halfWidth }) => ({ name, from, to, halfWidth })),
    { name: null, from: 0, to: route.length, halfWidth: null },
  ];
  const table = stretches.map((stretch) => receivers.map((receiver) => receiverFigures(model, receiver, stretch.name)));
  const most = Math.max(
    1,
    ...table
      .flat()
      .flatMap(({ interval95, rows }) => [interval95?.[1] ?? 0, ...rows.map(({ row }) => row.meanAbsolute ?? 0)]),
  );
  const scale = scaleLinear().domain([0, most]).nice(4).range([4, 116]);
  const rows = stretches.map(
    ({ name, from, to, halfWidth }, i): TableRow => ({
      heading: [
        name ?? 'Whole route',
        <span class="under">
          {showStretch(from, to)}
          {halfWidth === null ? null : `, ±${showMetres(halfWidth)}`}
        </span>,
      ],
      cells: [
        ...table[i].map((figures) => cell(figures, scale, halfWidth)),
        <div class="words">
          {orderSentences(model, name).map((sentence) => (
            <p>{sentence}</p>
          ))}
        </div>,
      ],
      stretch: [from, to],
      ...(name === null ? { kind: 'total' as const } : {}),
    }),
  );
  const holds = new Set(table.flat().flatMap(({ holdsFor }) => holdsFor ?? []));
  return (
    <>
      {dataTable(
        'Mean distance from the line by stretch and receiver',
        ['Stretch', ...receivers.map((receiver) => receiverName(receiver)), 'What that shows'],
        rows,
      )}
      <p class="note">
        Mean distance, each metre of the route counting once
        {holds.size > 0 ? `, with its 95 % interval (${[...holds].join(' or ')})` : ''}; below it the mean offset with
        its side. Receivers that share a letter in one line were not told apart. Grey figures rest on less than 80 % of
        the stretch or on very few independent samples. In the small pictures the scale runs from 0 to{' '}
        {showMetres(scale.domain()[1])}, the bar is the interval, the marks are the runs, the upright line is the
        corridor.
      </p>
    </>
  );
}

function cell(figures: ReceiverFigures, scale: (value: number) => number, halfWidth: number | null): Content {
  const { meanAbsolute, interval95, bias, ties, coverage, rows, receiver } = figures;
  if (rows.length === 0 || meanAbsolute === null) return <span class="under">no figure</span>;
  const weak = coverage < 0.8 || rows.every(({ row }) => row.effectiveSamples !== null && row.effectiveSamples < 3);
  const place = (value: number) => Math.min(118, scale(Math.min(value, 1e6))).toFixed(1);
  return (
    <div class={weak ? 'figure weak' : 'figure'}>
      <strong>{showMetres(meanAbsolute)}</strong>
      {ties ? <sup title="ties">{ties}</sup> : null}
      {interval95 ? <span class="interval"> {showInterval(interval95)}</span> : null}
      <svg class="dl-picture range" viewBox="0 0 120 16" width={120} height={16} aria-hidden="true">
        <path class="dl-rule" d="M4,8H116" />
        {halfWidth === null || scale(halfWidth) > 116 ? null : <path class="dl-edge" d={`M${place(halfWidth)},0V16`} />}
        {interval95 ? (
          <path
            class={`dl-r${receiverLooks(receiver).colour}`}
            stroke-width={4}
            stroke-opacity={0.55}
            d={`M${place(Math.max(0, interval95[0]))},8H${place(interval95[1])}`}
          />
        ) : null}
        {rows.map(({ row }) =>
          row.meanAbsolute === null ? null : receiverMarker(receiver, Number(place(row.meanAbsolute)), 8, 8),
        )}
      </svg>
      <span class="under">
        {showOffset(bias)}
        {coverage < 0.995 && `, ${showShare(coverage)} covered`}
      </span>
    </div>
  );
}

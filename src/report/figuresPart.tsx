import { nice } from 'd3-array';
import { baselineOf } from './baselineOf';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { linearScale } from './linearScale';
import { FAINT_BELOW, type ReceiverFigures, receiverFigures } from './receiverFigures';
import { receiverLooks, receiverMarker } from './receiverLooks';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { showInterval, showMetres, showOffset, showShare, showSides, showStretch } from './showFigures';
import { everyStretch, stretchRow } from './stretchRow';

/** Receiver by section: how far off on average, how sure, to which side, and which can't be told apart. */
export function figuresPart(model: ReportModel): Content {
  const { receivers } = model;
  const stretches = everyStretch(model);
  const table = stretches.map((stretch) => receivers.map((receiver) => receiverFigures(model, receiver, stretch.name)));
  const most = Math.max(
    1,
    ...table
      .flat()
      .flatMap(({ interval95, rows }) => [interval95?.[1] ?? 0, ...rows.map(({ row }) => row.meanAbsolute ?? 0)]),
  );
  const scale = linearScale(nice(0, most, 4), [4, 116]);
  const rows = stretches.map((stretch, i) =>
    stretchRow(
      stretch,
      table[i].map((figures) => cell(figures, scale, stretch.halfWidth)),
      [showStretch(stretch.from, stretch.to), stretch.halfWidth !== null && `, ±${showMetres(stretch.halfWidth)}`],
    ),
  );
  const baseline = baselineOf(model);
  const holds = new Set(table.flat().flatMap(({ holdsFor }) => holdsFor ?? []));
  return (
    <>
      <DataTable
        caption="Mean distance from the line by stretch and receiver"
        columns={['Stretch', ...receivers.map((receiver) => heading(receiver, baseline))]}
        rows={rows}
      />
      <p class="note">
        Mean distance{holds.size > 0 ? ` with its 95 % interval (${[...holds].join(' or ')})` : ''}, then the mean
        offset with its own, then the verdict against the line, on average. Receivers that share a letter in a row were
        not told apart; fainter figures rest on less than 80 % of the stretch or very few independent samples. The small
        pictures run from 0 to {showMetres(scale.domain[1])}: the bar is the interval, the marks are the runs, the
        upright line is the corridor.
      </p>
    </>
  );
}

function cell(figures: ReceiverFigures, scale: (value: number) => number, halfWidth: number | null): Content {
  const { meanAbsolute, interval95, bias, ties, coverage, rows, receiver, judged } = figures;
  if (rows.length === 0 || meanAbsolute === null) return <span class="under">no figure</span>;
  const weak =
    coverage < FAINT_BELOW || rows.every(({ row }) => row.effectiveSamples !== null && row.effectiveSamples < 3);
  const place = (value: number) => Math.min(118, scale(Math.min(value, 1e6))).toFixed(1);
  return (
    <div class={weak ? 'figure weak' : 'figure'}>
      <strong>{showMetres(meanAbsolute)}</strong>
      {ties && <sup title="ties">{ties}</sup>}
      {interval95 && <span class="interval"> {showInterval(interval95)}</span>}
      <svg class="dl-picture range" viewBox="0 0 120 16" width={120} height={16} aria-hidden="true">
        <path class="dl-rule" d="M4,8H116" />
        {halfWidth !== null && scale(halfWidth) <= 116 && <path class="dl-edge" d={`M${place(halfWidth)},0V16`} />}
        {interval95 && (
          <path
            {...receiverLooks(receiver).stroke}
            stroke-width={4}
            stroke-opacity={0.55}
            d={`M${place(Math.max(0, interval95[0]))},8H${place(interval95[1])}`}
          />
        )}
        {rows.map(
          ({ row }) => row.meanAbsolute !== null && receiverMarker(receiver, Number(place(row.meanAbsolute)), 8, 8),
        )}
      </svg>
      <span class="under">
        {showOffset(bias)}
        {judged?.biasInterval95 && ` (${showSides(judged.biasInterval95)})`}
      </span>
      <span class="under">
        {judged && verdict(judged)}
        {coverage < 0.995 && [judged && ', ', `${showShare(coverage)} covered`]}
      </span>
    </div>
  );
}

/** Against the line. */
function verdict({ lineVerdict, strayedTo }: NonNullable<ReceiverFigures['judged']>): Content {
  if (lineVerdict !== 'strayed') return lineVerdict;
  return <strong>{strayedTo === null ? 'strayed' : `strayed ${strayedTo}`}</strong>;
}

function heading(receiver: Receiver, baseline: string | null): Content {
  return [receiverName(receiver), receiver.label === baseline && <span class="under">baseline</span>];
}

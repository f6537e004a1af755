import type { Passage } from '../assess';
import { DataTable } from './DataTable';
import { drawPlan } from './drawPlan';
import { type Content, element, fragment } from './element';
import { embeddedSvg } from './embeddedSvg';
import { boxAround } from './mapFrame';
import { passagesOf } from './passagesOf';
import type { PlanLines } from './planLines';
import { mean, receiverFigures } from './receiverFigures';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel, Strand } from './reportModel';
import type { RoutePlane } from './routePlane';
import { showAlong, showCount, showDuration, showMetres, showShare, showShares } from './showFigures';
import { strandName } from './strandName';
import { everyStretch, stretchRow } from './stretchRow';

/** Passages that get a picture: in impossible areas, and outside every allowed one. */
const SHOWN = { through: 8, outside: 4 };

/** Shares on allowed ground, metres in impossible areas, and a close-up of the longest passages. Null without areas. */
export function groundPart(model: ReportModel, plane: RoutePlane, lines: PlanLines): Content {
  if (model.route.areas == null) return null;
  const passages = model.strands
    .flatMap((strand) => passagesOf(strand).map((passage) => ({ strand, passage })))
    .sort((a, b) => b.passage.metres - a.passage.metres);
  const through = passages.filter(({ passage }) => passage.area !== null);
  const outside = passages.filter(({ passage }) => passage.area === null);
  const groups = [
    { id: 'through', heading: 'Through impossible areas', all: through, shown: through.slice(0, SHOWN.through) },
    { id: 'outside', heading: 'Outside every allowed area', all: outside, shown: outside.slice(0, SHOWN.outside) },
  ].filter(({ shown }) => shown.length > 0);
  return (
    <>
      <DataTable
        caption="Where the recorded lines lay"
        columns={['Stretch', ...model.receivers.map(receiverName)]}
        rows={everyStretch(model).map((stretch) =>
          stretchRow(
            stretch,
            model.receivers.map((receiver) => cell(model, receiver, stretch.name)),
          ),
        )}
      />
      <p class="note">
        Share of the recorded line inside the allowed areas with its 95 % interval, then what is too near their edges to
        tell; metres and seconds outside of them and in impossible areas, and how often one was entered
        {model.runs.length > 1 && '; means over the runs'}.
      </p>
      {pairWords(model)}
      {groups.map(({ id, heading, all, shown }) => (
        <>
          <h3>{heading}</h3>
          <ol class="cards">
            {shown.map(({ strand, passage }, i) => card(model, plane, lines, strand, passage, `${id}-${i + 1}`))}
          </ol>
          {all.length > shown.length && (
            <p class="note">
              {showCount(all.length - shown.length, 'shorter one is', 'shorter ones are')} in the files, not here.
            </p>
          )}
        </>
      ))}
      {passages.length > 0 && (
        <p class="note">
          Numbered by their metres, the longest first; the depth is counted from the nearest edge. Nothing is said of
          what was recorded off the route.
        </p>
      )}
    </>
  );
}

function cell(model: ReportModel, receiver: Receiver, stretch: string | null): Content {
  const { rows, judged } = receiverFigures(model, receiver, stretch);
  const share = judged?.insideAllowed ?? mean(rows.map(({ row }) => row.insideAllowed));
  const interval = judged?.insideAllowedInterval95 ?? null;
  const open = mean(rows.map(({ row }) => row.undecidedAllowed ?? null));
  const outside = mean(rows.map(({ row }) => row.outsideAllowed?.metres ?? null));
  const outsideSeconds = mean(rows.map(({ row }) => row.outsideAllowed?.seconds ?? null));
  const through = mean(rows.map(({ row }) => row.insideImpossible?.metres ?? null));
  const throughSeconds = mean(rows.map(({ row }) => row.insideImpossible?.seconds ?? null));
  const times = rows.reduce((sum, { row }) => sum + (row.insideImpossible?.times ?? 0), 0);
  if (share === null && through === null) return <span class="under">no figure</span>;
  const told = (metres: number, seconds: number | null) =>
    `${showMetres(metres)}${seconds === null ? '' : `, ${showDuration(seconds)}`}`;
  return (
    <div class="figure">
      {share !== null && <strong>{showShare(share)}</strong>}
      {interval && <span class="interval"> {showShares(interval)}</span>}
      {open !== null && open > 0 && <span class="under">{showShare(open)} too near an edge</span>}
      {outside !== null && outside > 0 && <span class="under">outside {told(outside, outsideSeconds)}</span>}
      {through !== null && times > 0 && (
        <span class="under">
          <strong>
            through {told(through, throughSeconds)}, {showCount(times, 'time')}
          </strong>
        </span>
      )}
    </div>
  );
}

/** Who was surely more on allowed ground than whom, over the runs. */
function pairWords({ summary }: ReportModel): Content {
  const told = (summary?.pairs ?? []).flatMap(({ first, second, section, insideAllowed }) => {
    if (!insideAllowed || insideAllowed.verdict === 'undecided' || section !== null) return [];
    const { verdict, more, difference } = insideAllowed;
    const points = `${Math.abs(100 * difference).toFixed(1)} percentage points`;
    return verdict === 'more'
      ? [`“${more}” was on allowed ground more than “${more === first ? second : first}”, by ${points}.`]
      : [`“${first}” and “${second}” were on allowed ground equally much.`];
  });
  return told.length === 0 ? null : <p>{told.join(' ')}</p>;
}

function card(
  model: ReportModel,
  plane: RoutePlane,
  lines: PlanLines,
  strand: Strand,
  passage: Passage,
  id: string,
): Content {
  const number = id.replace(/\D/g, '');
  const { area, deepestAt, metres, seconds, deepest, section } = passage;
  const what = area === null ? 'outside every allowed area' : `through “${area}”`;
  const told = `${showMetres(metres)}${seconds === null ? '' : `, ${showDuration(seconds)}`}`;
  const description = `${strand.label} ${what} for ${told}, up to ${showMetres(deepest)} from the edge.`;
  const picture = drawPlan(model, plane, lines, {
    width: 280,
    title: `Passage ${number}, close up`,
    box: passageBox(strand, passage, plane),
    places: [],
    names: 'none',
    key: 'none',
    limits: { least: 170, most: 170 },
  });
  return (
    <li class="card" data-at={deepestAt.toFixed(1)} id={`passage-${id}`}>
      <h4>
        <span class="badge">{number}</span> {showAlong(deepestAt)}
        {section !== null && `, ${section}`}
      </h4>
      {embeddedSvg({ ...picture, description })}
      <p class="plain">
        {strandName(model, strand)} {what} for <strong>{told}</strong>, up to {showMetres(deepest)} from the edge
      </p>
    </li>
  );
}

/** Around a passage, the route beside it and the recording itself in it. */
function passageBox({ recording, assessment }: Strand, { from, to, deepestAt }: Passage, plane: RoutePlane) {
  const { bins } = assessment.route;
  const offsets = recording.offsets.flatMap((offset, k) =>
    offset !== null && bins[k + 1] >= from && bins[k] <= to ? [Math.abs(offset)] : [],
  );
  const aside = offsets.reduce((a, b) => Math.max(a, b), 0);
  const [x, y] = plane.at(deepestAt);
  const { west, east, south, north } = boxAround([plane.between(from, to)], 0);
  const reach = Math.max(20, 1.6 * aside, Math.min(150, 0.6 * Math.max((east - west) / 1.65, north - south)));
  return { west: x - 1.65 * reach, east: x + 1.65 * reach, south: y - reach, north: y + reach };
}

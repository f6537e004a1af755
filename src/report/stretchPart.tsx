import type { AssessedSection, RowLimit } from '../assess';
import type { Steps } from '../model';
import { captioned } from './captioned';
import { DataTable } from './DataTable';
import { drawDistribution } from './drawDistribution';
import { drawStrip } from './drawStrip';
import { type Content, element, fragment } from './element';
import { Folded } from './Folded';
import type { Picture } from './Picture';
import { receiverFigures } from './receiverFigures';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { inRunOrder } from './runList';
import { ScrollRegion } from './ScrollRegion';
import type { StripRow } from './StripView';
import { sectionFindings } from './sectionFindings';
import { showMetres, showShare, showStretch } from './showFigures';
import { shownPlaces } from './shownPlaces';
import { lapBase, lapRows, receiverRows } from './stripRows';

/**
 * Each stretch by itself, with a rest after it: what is shown, its strips and its distribution; laps of one stretch one above the
 * other. Null without sections.
 */
export function* stretchPart(model: ReportModel, embed: (picture: Picture) => Content): Steps<Content> {
  if (model.sections.length === 0) return null;
  const bases = new Set<string>();
  const cards: Content[] = [];
  for (const section of model.sections) {
    const base = lapBase(section.name);
    const laps = section.lap === null || bases.has(base) ? [] : lapRows(model, base);
    if (section.lap !== null) bases.add(base);
    cards.push(stretchCard(model, section, embed, laps.length > 1 ? laps : []));
    yield;
  }
  return (
    <>
      <p class="note">
        On the left metres left and right of the line, on the right the share of the metres within a distance; the band
        is the corridor.
      </p>
      {cards}
      {limitsLegend(model)}
    </>
  );
}

function stretchCard(
  model: ReportModel,
  section: AssessedSection,
  embed: (picture: Picture) => Content,
  laps: readonly StripRow[],
): Content {
  const { name, from, to, halfWidth, environment, lateral95 } = section;
  const shared = { width: 760, rowHeight: 58, sections: 'none', key: 'none' } as const;
  const strip = drawStrip(model, {
    ...shared,
    title: `${name}, metres left and right`,
    rows: judgedRows(model, section),
    places: shownPlaces(model),
    count: 'from start',
  });
  const distribution = drawDistribution(model, {
    width: 340,
    height: 300,
    title: `${name}, distances`,
    from,
    to,
    corridor: halfWidth,
    runs: 'none',
    key: 'none',
  });
  return (
    <article class="stretch" data-from={from.toFixed(1)} data-to={to.toFixed(1)}>
      <h3>
        {name}{' '}
        <span class="under">
          {[
            showStretch(from, to),
            environment,
            halfWidth === null ? 'no corridor stated' : `corridor ±${showMetres(halfWidth)}`,
            lateral95 === null ? 'uncertainty of the line not stated' : `line known to ±${showMetres(lateral95)}`,
          ]
            .filter(Boolean)
            .join(' · ')}
        </span>
      </h3>
      <div class="words">
        {sectionFindings(model, name).map((sentence) => (
          <p>{sentence}</p>
        ))}
      </div>
      <div class="pictures">
        <ScrollRegion label={`${name}, left and right of the line`} holds="picture">
          {embed(strip)}
        </ScrollRegion>
        {embed(distribution)}
      </div>
      {laps.length > 0 && (
        <Folded summary="The laps one above the other">
          {captioned(
            embed(
              drawStrip(model, {
                ...shared,
                title: `${lapBase(name)}, lap by lap`,
                rows: laps,
                places: [],
                count: 'from row',
              }),
            ),
            'All receivers, metres from the beginning of each lap',
          )}
        </Folded>
      )}
      {figures(model, section)}
    </article>
  );
}

/** A panel for each receiver, what is sure of it beside its name. */
function judgedRows(model: ReportModel, { name, from, to }: AssessedSection): StripRow[] {
  return receiverRows(model, from, to).map((row) => {
    const receiver = row.strands[0]?.receiver;
    if (!receiver) return row;
    const { judged } = receiverFigures(model, receiver, name);
    const { label } = receiver;
    if (judged?.lineVerdict === 'strayed') {
      return { ...row, label: `${label}: strayed${judged.strayedTo ? ` ${judged.strayedTo}` : ''}` };
    }
    return { ...row, label: judged?.sureSide ? `${label}: surely ${judged.sureSide}` : label };
  });
}

/** What the runs of each receiver show here, beyond the means of the table of all stretches. */
function figures(model: ReportModel, { name, from, to }: AssessedSection): Content {
  const rows = model.receivers.map((receiver) => {
    const { rows: found, insideCorridor, coverage } = receiverFigures(model, receiver, name);
    const byRun = (value: (row: (typeof found)[number]['row']) => number | null) =>
      inRunOrder(found.map(({ row }) => (value(row) === null ? '–' : showMetres(value(row))))) || 'no figure';
    const reasons = new Set(found.flatMap(({ row }) => row.limits.map(({ reason }) => reason)));
    return {
      heading: receiverName(receiver),
      cells: [
        byRun((row) => row.meanAbsolute),
        byRun((row) => row.p95),
        byRun((row) => row.max),
        showShare(insideCorridor),
        found.length === 0 ? 'no figure' : showShare(coverage),
        [...reasons].map((reason) => limitWords[reason][0]).join(', ') || '–',
      ],
      stretch: [from, to] as const,
    };
  });
  return (
    <Folded summary="Run by run">
      <DataTable
        caption={`Figures for ${name}${model.runs.length > 1 ? ', in the order of the runs' : ''}`}
        columns={['Receiver', 'mean', '95 %', 'worst', 'in corridor', 'covered', 'with care']}
        rows={rows}
      />
    </Folded>
  );
}

/** Why figures of a stretch are to be read with care: a word for the tables, and what it means. */
const limitWords: Readonly<Record<RowLimit['reason'], readonly [word: string, meaning: string]>> = {
  'left-out': ['left out', 'taken out of the judgement, or next to nothing of it left'],
  'not-covered': ['not covered', 'no usable fix there'],
  'low-coverage': ['part', 'less than 80 % of it covered'],
  'few-samples': ['few', 'fewer than 20 independent samples, so that “95 %” is practically the worst'],
  'too-short': ['short', 'too short for an interval, given how long errors last'],
  'own-draft': ['own draft', 'the line was drafted from this recording and not corrected since'],
  'unlike-memories': ['unlike', 'errors last much longer in one recording of the run than in another'],
  'coarse-reference': ['coarse', 'offsets as small as the line’s own uncertainty'],
  ambiguous: ['ambiguous', 'could lie on another part of the route as well'],
};

function limitsLegend({ strands, sections }: ReportModel): Content {
  const reasons = new Set(
    strands.flatMap(({ rows }) => sections.flatMap(({ name }) => rows.get(name)?.limits.map((l) => l.reason) ?? [])),
  );
  if (reasons.size === 0) return null;
  const told = [...reasons].map((reason) => `“${limitWords[reason][0]}” means ${limitWords[reason][1]}`);
  return <p class="note">To be read with care: {told.join('; ')}.</p>;
}

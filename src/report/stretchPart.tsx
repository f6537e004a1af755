import type { AssessedSection } from '../assess';
import { captioned } from './captioned';
import { DataTable } from './DataTable';
import { drawDistribution } from './drawDistribution';
import { drawStrip } from './drawStrip';
import { type Content, element, fragment } from './element';
import type { Picture } from './Picture';
import { receiverFigures } from './receiverFigures';
import type { ReportModel } from './reportModel';
import type { StripRow, StripView } from './StripView';
import { sectionFindings } from './sectionFindings';
import { showList, showMetres, showNumber, showOffset, showShare, showSides, showStretch } from './showFigures';
import { shownPlaces } from './shownPlaces';
import { strandName } from './strandName';
import { lapBase, lapRows, receiverRows } from './stripRows';

/** Each stretch by itself: what is shown, its strips and its distribution; laps of one stretch one above the other. Null without sections. */
export function stretchPart(model: ReportModel, embed: (picture: Picture) => Content): Content {
  if (model.sections.length === 0) return null;
  const bases = new Set<string>();
  return (
    <div class="stretches">
      {model.sections.map((section) => {
        const laps = section.lap === null ? [] : lapRows(model, lapBase(section.name));
        const stacked = laps.length > 1 && !bases.has(lapBase(section.name)) ? laps : [];
        if (section.lap !== null) bases.add(lapBase(section.name));
        return stretchCard(model, section, embed, stacked);
      })}
    </div>
  );
}

function stretchCard(
  model: ReportModel,
  section: AssessedSection,
  embed: (picture: Picture) => Content,
  laps: readonly StripRow[],
): Content {
  const { name, from, to, halfWidth, environment, lateral95 } = section;
  const shared = { width: 340, rowHeight: 74, places: shownPlaces(model), sections: 'none', key: 'none' } as const;
  const strip = (title: string, rows: readonly StripRow[], count: StripView['count']) =>
    embed(drawStrip(model, { ...shared, title, rows, count }));
  const distribution = drawDistribution(model, {
    width: 340,
    height: 210,
    title: `${name}, distances`,
    from,
    to,
    corridor: halfWidth,
    key: 'none',
  });
  return (
    <article class="stretch" data-from={from.toFixed(1)} data-to={to.toFixed(1)}>
      <h3>{name}</h3>
      <p class="under">
        {[
          showStretch(from, to),
          environment,
          halfWidth === null ? 'no corridor stated' : `corridor ±${showMetres(halfWidth)}`,
          lateral95 === null
            ? 'uncertainty of the reference not stated'
            : `reference known to ±${showMetres(lateral95)} (95 %)`,
        ]
          .filter(Boolean)
          .join(' · ')}
      </p>
      <div class="words">
        {sectionFindings(model, name).map((sentence) => (
          <p>{sentence}</p>
        ))}
      </div>
      <div class="pictures">
        {captioned(
          strip(`${name}, metres left and right`, judgedRows(model, section), 'from start'),
          'Left and right of the line, receiver by receiver',
        )}
        {captioned(embed(distribution), 'Share of the metres within a distance; the tint is the corridor')}
        {laps.length > 0 &&
          captioned(
            strip(`${lapBase(name)}, lap by lap`, laps, 'from row'),
            'The laps one above the other, all receivers',
          )}
      </div>
      {figures(model, section)}
    </article>
  );
}

/** A panel for each receiver, what is sure of it beside its name. */
function judgedRows(model: ReportModel, { name, from, to }: AssessedSection): StripRow[] {
  return receiverRows(model, from, to).map((row) => {
    const receiver = row.strands[0]?.receiver;
    const judged = receiver && receiverFigures(model, receiver, name).judged;
    if (judged?.lineVerdict === 'strayed') {
      return { ...row, label: `${receiver.label}: strayed${judged.strayedTo ? ` ${judged.strayedTo}` : ''}` };
    }
    return judged?.sureSide ? { ...row, label: `${receiver!.label}: surely ${judged.sureSide}` } : row;
  });
}

function figures(model: ReportModel, { name, from, to }: AssessedSection): Content {
  const rows = model.receivers.flatMap((receiver) =>
    receiverFigures(model, receiver, name).rows.map(({ strand, row }) => ({
      heading: strandName(model, strand),
      cells: [
        showMetres(row.meanAbsolute),
        showMetres(row.median),
        row.effectiveSamples !== null && row.effectiveSamples < 20 ? (
          <span class="weak">{showMetres(row.p95)}</span>
        ) : (
          showMetres(row.p95)
        ),
        showMetres(row.max),
        `${row.biasInWords ?? showOffset(row.bias)}${row.biasInterval95 ? ` (${showSides(row.biasInterval95)})` : ''}`,
        row.strayedTo === null ? row.lineVerdict : `${row.lineVerdict} ${row.strayedTo}`,
        showMetres(row.sd),
        showShare(row.insideCorridor),
        showShare(row.coverage),
        showNumber(row.effectiveSamples, 0),
      ],
      stretch: [from, to] as const,
    })),
  );
  return (
    <details>
      <summary>All figures of this stretch</summary>
      <DataTable
        caption={`Figures for ${name}`}
        columns={[
          'Recording',
          'mean',
          'median',
          '95 %',
          'worst',
          'mean offset (95 %)',
          'against the line',
          'spread',
          'in corridor',
          'covered',
          'independent samples',
        ]}
        rows={rows}
      />
      {care(model, name)}
    </details>
  );
}

/** What a reader must bear in mind of the figures, each sentence once with the recordings it is about. */
function care(model: ReportModel, section: string): Content {
  const about = new Map<string, string[]>();
  for (const strand of model.strands) {
    for (const { message: limit } of strand.rows.get(section)?.limits ?? []) {
      about.set(limit, [...(about.get(limit) ?? []), strand.label]);
    }
  }
  if (about.size === 0) return null;
  const lines = [...about].map(([limit, labels]) => (
    <li>
      {labels.length === model.strands.length ? 'All' : showList(labels)}: {limit}
    </li>
  ));
  return (
    <>
      <p class="note">Read with care:</p>
      <ul class="note">{lines}</ul>
    </>
  );
}

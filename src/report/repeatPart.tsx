import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { inRunOrder, strandsOf } from './runList';
import { showCount, showMetres } from './showFigures';
import { everyStretch, stretchRow } from './stretchRow';

/** Whether each receiver shows the same again: from run to run, and from lap to lap at the same place. Null where nothing comes again. */
export function repeatPart(model: ReportModel): Content {
  const parts = [betweenRuns(model), betweenLaps(model)].filter((part) => part !== null);
  return parts.length === 0 ? null : parts;
}

function betweenRuns(model: ReportModel): Content {
  const { summary, receivers } = model;
  if (summary === null || summary.rows.every(({ betweenRunSd }) => betweenRunSd === null)) return null;
  const spread = ({ label }: Receiver, stretch: string | null): Content => {
    const row = summary.rows.find(({ receiver, section }) => receiver === label && section === stretch);
    if (!row || row.betweenRunSd === null) return <span class="under">no figure</span>;
    return (
      <>
        {showMetres(row.betweenRunSd)}
        {row.withinRunSd !== null && <span class="under">({showMetres(row.withinRunSd)})</span>}
      </>
    );
  };
  return (
    <>
      <DataTable
        caption="How much the mean distance differs from run to run"
        columns={['Stretch', ...receivers.map(receiverName)]}
        rows={everyStretch(model).map((stretch) =>
          stretchRow(
            stretch,
            receivers.map((receiver) => spread(receiver, stretch.name)),
          ),
        )}
      />
      <p class="note">
        Standard deviation of the runs’ mean distances; in brackets what the scatter within the runs alone would give.
        Where it is much more, days, places worn or skies differ, and no single run speaks for a receiver.
      </p>
    </>
  );
}

function betweenLaps(model: ReportModel): Content {
  const found = model.assessments.flatMap(({ lapRepeatability }) => lapRepeatability);
  const names = [...new Set(found.map(({ section }) => section))];
  if (names.length === 0) return null;
  const laps = (name: string) =>
    Math.max(...found.filter(({ section }) => section === name).map((entry) => entry.laps));
  const spreads = (receiver: Receiver, name: string) =>
    strandsOf(model, receiver).flatMap(({ assessment, recording }) =>
      assessment.lapRepeatability
        .filter((entry) => entry.recording === recording.name && entry.section === name)
        .map(({ sd }) => showMetres(sd)),
    );
  return (
    <>
      <DataTable
        caption="How much the offset differs from lap to lap at the same place"
        columns={['Lap', ...model.receivers.map(receiverName)]}
        rows={names.map((name) => ({
          heading: [name, <span class="under">{showCount(laps(name), 'lap')}</span>],
          cells: model.receivers.map(
            (receiver) => inRunOrder(spreads(receiver, name)) || <span class="under">no figure</span>,
          ),
        }))}
      />
      <p class="note">
        Standard deviation over the laps{model.runs.length > 1 && ', in the order of the runs'}. The wearer’s own wander
        is in it.
      </p>
    </>
  );
}

import { dataTable } from './dataTable';
import { type Content, element, fragment } from './element';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { inRunOrder, strandsOf } from './runList';
import { showMetres, showStretch } from './showFigures';

/** Whether each receiver shows the same again: from run to run, and from lap to lap at the same place. Null where nothing comes again. */
export function repeatPart(model: ReportModel): Content {
  const parts = [betweenRuns(model), betweenLaps(model)].filter((part) => part !== null);
  return parts.length === 0 ? null : parts;
}

function betweenRuns({ summary, receivers, sections, route }: ReportModel): Content {
  if (summary === null || summary.rows.every(({ betweenRunSd }) => betweenRunSd === null)) return null;
  const stretches = [...sections, { name: null, from: 0, to: route.length }];
  return (
    <>
      {dataTable(
        'How much the mean distance differs from run to run',
        ['Stretch', ...receivers.map((receiver) => receiverName(receiver))],
        stretches.map(({ name, from, to }) => ({
          heading: [name ?? 'Whole route', <span class="under">{showStretch(from, to)}</span>],
          cells: receivers.map(({ label }) => {
            const row = summary.rows.find(({ receiver, section }) => receiver === label && section === name);
            if (!row || row.betweenRunSd === null) return <span class="under">no figure</span>;
            return (
              <>
                {showMetres(row.betweenRunSd)}
                {row.withinRunSd !== null && <span class="under">{showMetres(row.withinRunSd)} expected</span>}
              </>
            );
          }),
          stretch: [from, to] as const,
          ...(name === null ? { kind: 'total' as const } : {}),
        })),
      )}
      <p class="note">
        Standard deviation over the runs of each run’s mean distance; “expected” is what the scatter within the runs
        alone would give. Much more than that means that days, places worn or skies differ, and that no single run
        speaks for a receiver.
      </p>
    </>
  );
}

function betweenLaps(model: ReportModel): Content {
  const found = model.assessments.flatMap(({ lapRepeatability }) => lapRepeatability);
  const names = [...new Set(found.map(({ section }) => section))];
  if (names.length === 0) return null;
  return (
    <>
      {dataTable(
        'How much the offset differs from lap to lap at the same place',
        ['Lap', ...model.receivers.map((receiver) => receiverName(receiver))],
        names.map((name) => {
          const laps = Math.max(...found.filter(({ section }) => section === name).map((entry) => entry.laps));
          return {
            heading: [name, <span class="under">{laps} laps</span>],
            cells: model.receivers.map(
              (receiver) =>
                inRunOrder(
                  strandsOf(model, receiver).flatMap(({ assessment, recording }) =>
                    assessment.lapRepeatability
                      .filter((entry) => entry.recording === recording.name && entry.section === name)
                      .map(({ sd }) => showMetres(sd)),
                  ),
                ) || <span class="under">no figure</span>,
            ),
          };
        }),
      )}
      <p class="note">
        Standard deviation over the laps, quadratic mean over the places
        {model.runs.length > 1 && ', in the order of the runs'}. The wearer’s own wander is in it: nobody runs the same
        line twice.
      </p>
    </>
  );
}

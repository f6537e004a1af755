import type { AlongTrackError } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { mean } from './receiverFigures';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { strandsOf } from './runList';
import { showLateness, showMetres, showSigned } from './showFigures';
import { everyStretch, stretchRow } from './stretchRow';

/** How far each receiver lay ahead of or behind the body. Null where no recordings share a pace. */
export function pacePart(model: ReportModel): Content {
  if (model.strands.every(({ rows }) => [...rows.values()].every(({ alongTrackError }) => alongTrackError == null)))
    return null;
  const errors = (receiver: Receiver, stretch: string | null) =>
    strandsOf(model, receiver).flatMap(({ rows }) => rows.get(stretch)?.alongTrackError ?? []);
  const sharing = model.strands.flatMap(({ rows }) => rows.get(null)?.alongTrackError?.receivers ?? []);
  return (
    <>
      <DataTable
        caption="Ahead of the body (+) or behind it (−) along the way"
        columns={['Stretch', ...model.receivers.map(receiverName)]}
        rows={everyStretch(model).map((stretch) =>
          stretchRow(
            stretch,
            model.receivers.map((receiver) => shown(errors(receiver, stretch.name))),
          ),
        )}
      />
      <p class="note">
        Mean{model.runs.length > 1 && ' over the runs'}; below it what 95 % lay within, and how late (+) or early (−) in
        seconds, the clock’s error included. Relative to the pace that the receivers of a run share: what all have in
        common does not show{Math.min(...sharing) === 2 && ', of two receivers each shows half of their difference'}.
      </p>
    </>
  );
}

function shown(errors: readonly AlongTrackError[]): Content {
  if (errors.length === 0) return <span class="under">no figure</span>;
  const late = mean(errors.map(({ lag }) => lag));
  return (
    <>
      {showSigned(mean(errors.map(({ bias }) => bias)))}
      <span class="under">
        {showMetres(mean(errors.map(({ p95 }) => p95)))}
        {late !== null && `, ${showLateness(late)}`}
      </span>
    </>
  );
}

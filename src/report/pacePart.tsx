import type { AlongTrackError } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { mean } from './receiverFigures';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { strandsOf } from './runList';
import { showDuration, showMetres, showSigned } from './showFigures';
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
        {model.runs.length > 1 && 'Means over the runs. '}Relative to the pace that the receivers of a run share, the
        middle one of them at each second, and free of what each clock is ahead over the whole run: what all have in
        common does not show, {Math.min(...sharing) === 2 && 'of two receivers each shows half of their difference, '}
        and “late” has the clock in it. A receiver may cut no corner and keep to the line, and still show you where you
        were a moment ago.
      </p>
    </>
  );
}

function shown(errors: readonly AlongTrackError[]): Content {
  if (errors.length === 0) return <span class="under">no figure</span>;
  const late = mean(errors.map(({ lag }) => lag));
  const word = late !== null && late < 0 ? 'early' : 'late';
  return (
    <>
      {showSigned(mean(errors.map(({ bias }) => bias)))}
      <span class="under">
        95 % within {showMetres(mean(errors.map(({ p95 }) => p95)))}
        {late !== null && `, ${showDuration(Math.abs(late))} ${word}`}
      </span>
    </>
  );
}

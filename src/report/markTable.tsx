import type { MarkDistance } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { inRunOrder, strandsOf } from './runList';
import { showAlong, showLateness, showSigned } from './showFigures';

/** Seconds from which being late or early is told: below it is a fix's own interval. */
const LATE = 1;

/** How wrong the distance shown by each receiver was at each mark and at the finish, and how late it passed there. */
export function markTable(model: ReportModel): Content {
  const { distances } = model.assessments[0];
  const marks = [
    ...new Map(
      distances.map(({ mark, alongTrack }) => [JSON.stringify([mark, alongTrack]), { mark, alongTrack }]),
    ).values(),
  ];
  if (marks.length === 0) return null;
  const shown = (receiver: ReportModel['receivers'][number], { mark, alongTrack }: (typeof marks)[number]) =>
    strandsOf(model, receiver).flatMap(({ assessment, recording }) =>
      assessment.distances.filter(
        (one) => one.recording === recording.name && one.mark === mark && one.alongTrack === alongTrack,
      ),
    );
  const timed = model.assessments.some(({ distances }) => distances.some(({ late }) => late !== null));
  return (
    <>
      <DataTable
        caption="Distance shown at the marks, against the reference"
        columns={['Mark', ...model.receivers.map(receiverName)]}
        rows={marks.map((place) => ({
          heading: [place.mark ?? 'Finish', <span class="under">{showAlong(place.alongTrack)}</span>],
          cells: model.receivers.map((receiver) => cell(shown(receiver, place))),
          stretch: [Math.max(0, place.alongTrack - 1), place.alongTrack + 1] as const,
        }))}
      />
      <p class="note">
        Length recorded since joining the route, less that of the reference
        {model.runs.length > 1 && ', in the order of the runs'}; “–”: no fix beside the mark.
        {timed
          ? ' Below it how much later (+) or earlier (−) it passed than the median of its run, where that is a second or more.'
          : null}
      </p>
    </>
  );
}

function cell(distances: readonly MarkDistance[]): Content {
  if (distances.every(({ error }) => error === null)) return <span class="under">not covered</span>;
  const late = distances.map(({ late }) => (late === null ? '–' : showLateness(late)));
  return (
    <>
      {inRunOrder(distances.map(({ error }) => (error === null ? '–' : showSigned(error))))}
      {distances.some((one) => Math.abs(one.late ?? 0) >= LATE) && <span class="under">{inRunOrder(late)}</span>}
    </>
  );
}

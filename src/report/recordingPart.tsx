import type { AssessedRecording, OffRouteEpisode } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { showAlong, showDuration, showMetres, showShare } from './showFigures';

/** What was recorded: how often, what is missing and why, what was left out. */
export function recordingPart(model: ReportModel): Content {
  const rows = model.strands.map(({ receiver, run, recording, rows: figures }) => ({
    heading: [
      receiverName(receiver),
      <span class="under">{[run, recording.placement].filter(Boolean).join(', ')}</span>,
    ],
    cells: [
      showShare(figures.get(null)?.coverage ?? null),
      recording.fixInterval
        ? `${showDuration(recording.fixInterval.median)}, ${recording.fixInterval.kind}`
        : 'no times',
      gaps(recording),
      recording.settled
        ? `after ${showDuration(recording.settled.seconds)}, at ${showAlong(recording.settled.alongTrack)}`
        : 'not shown',
      recording.offRoute.length === 0 ? 'none' : recording.offRoute.map(away).join('; '),
      recording.laps ? `${recording.laps.seen} of ${recording.laps.planned}` : '–',
      recording.stops.length === 0
        ? 'none'
        : recording.stops
            .map(
              (stop) =>
                `${showDuration(stop.seconds)} at ${showAlong(stop.alongTrack)}, fixes within ${showMetres(stop.r95)}`,
            )
            .join('; '),
      recording.confidence ? showShare(recording.confidence.mean) : '–',
      recording.data.issues
        .map(({ message, count }) => (count > 1 ? `${message} (${count} times)` : message))
        .join(' ') || 'nothing',
    ],
  }));
  const leftOut = model.assessments.flatMap(({ recordings }) =>
    recordings.filter(({ leftOut: reason }) => reason !== null),
  );
  return (
    <>
      <DataTable
        caption="The recordings"
        columns={[
          'Recording',
          'covered',
          'a fix every',
          'gaps',
          'settled',
          'off the route',
          'laps seen',
          'stops',
          'sure of the placing',
          'mended while reading',
        ]}
        rows={rows}
      />
      {leftOut.length > 0 && (
        <>
          <h3>Left out</h3>
          <ul>
            {leftOut.map(({ name, leftOut: reason }) => (
              <li>
                <bdi>{name}</bdi>: {reason!.message}
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

/** Where it left the route and came back, how far off it was and for how long: never where. */
function away({ from, to, peak, seconds }: OffRouteEpisode): string {
  return [
    `${showAlong(from)} to ${showAlong(to)}`,
    ...(peak === null ? [] : [`up to ${showMetres(peak)} off`]),
    ...(seconds === null ? [] : [`for ${showDuration(seconds)}`]),
  ].join(', ');
}

const causes = { break: 'the file starts again', pause: 'paused', silence: 'no fixes', jump: 'a jump' } as const;

function gaps({ gaps: list }: AssessedRecording): string {
  if (list.length === 0) return 'none';
  const longest = [...list].sort((a, b) => b.metres - a.metres)[0];
  const where = longest.from === null ? '' : ` from ${showAlong(longest.from)}`;
  const most = list.length === 1 ? '1, ' : `${list.length}; the longest `;
  return `${most}${showAlong(longest.metres)}${where} (${causes[longest.reason]})`;
}

import type { AssessedRecording, OffRouteEpisode, Stop } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { showAlong, showDuration, showList, showMetres, showShare } from './showFigures';

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
        ? `${showDuration(recording.fixInterval.median)}${recording.fixInterval.kind === 'variable' ? ', variable' : ''}`
        : 'no times',
      gaps(recording),
      recording.settled
        ? `${showDuration(recording.settled.seconds)}, ${showAlong(recording.settled.alongTrack)}`
        : 'not shown',
      recording.confidence ? showShare(recording.confidence.mean) : '–',
      remarks(recording).join('; ') || '–',
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
          'gaps, the longest where',
          'settled after, at',
          'sure of the placing',
          'else',
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

/** What is out of the common: away from the route, laps left out or added, stops, what was mended while reading. */
function remarks({ offRoute, laps, stops, data }: AssessedRecording): string[] {
  return [
    ...offRoute.map((episode) => `off the route ${away(episode)}`),
    ...(laps && laps.seen !== laps.planned ? [`${laps.seen} of ${laps.planned} laps`] : []),
    ...(stops.length > 0 ? [`stood ${showList(stops.map(stood))}`] : []),
    ...data.issues.map(({ message, count }) => (count > 1 ? `${message} (${count} times)` : message)),
  ];
}

function stood({ seconds, alongTrack, r95 }: Stop): string {
  return `${showDuration(seconds)} at ${showAlong(alongTrack)}, fixes within ${showMetres(r95)}`;
}

/** Where it left the route and came back, how far off it was and for how long: never where. */
function away({ from, to, peak, seconds }: OffRouteEpisode): string {
  return [
    `${showAlong(from)} to ${showAlong(to)}`,
    ...(peak === null ? [] : [`up to ${showMetres(peak)} off`]),
    ...(seconds === null ? [] : [`for ${showDuration(seconds)}`]),
  ].join(', ');
}

const causes = { break: 'a break in the file', pause: 'paused', silence: 'no fixes', jump: 'a jump' } as const;

function gaps({ gaps: list }: AssessedRecording): string {
  if (list.length === 0) return 'none';
  const longest = [...list].sort((a, b) => b.metres - a.metres)[0];
  const where = longest.from === null ? '' : ` from ${showAlong(longest.from)}`;
  return `${list.length}: ${showAlong(longest.metres)}${where}, ${causes[longest.reason]}`;
}

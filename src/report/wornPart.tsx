import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import type { ReportModel } from './reportModel';
import { showCount, showInterval, showMetres } from './showFigures';

/** What being worn here rather than there changes, and who was worn where. Null where no two places were stated. */
export function wornPart({ summary }: ReportModel): Content {
  const design = summary?.design ?? [];
  const places = [...new Set(design.flatMap(({ placement }) => placement ?? []))];
  if (summary === null || places.length < 2) return null;
  const receivers = [...new Set(design.map(({ receiver }) => receiver))];
  return (
    <>
      {summary.placementEffects.length === 0 ? (
        <p>
          No two places can be compared: they were not swapped between the receivers from run to run, so that a place
          cannot be told from the receiver worn there, or from the run.
        </p>
      ) : (
        <ul>
          {summary.placementEffects.map(({ first, second, receivers: worn, difference, interval95 }) => {
            const size = `${showMetres(Math.abs(difference))} ${difference < 0 ? 'closer to' : 'further from'} the line at “${first}” than at “${second}”`;
            const told = interval95 !== null && (interval95[0] > 0 || interval95[1] < 0);
            const from = `from ${showCount(worn, 'receiver')}`;
            return (
              <li>
                {told ? size : `No difference shown between “${first}” and “${second}”: ${size}`}
                {interval95 === null
                  ? ` (${from}, too few runs for an interval).`
                  : ` (${showInterval(interval95)}, ${from}).`}
              </li>
            );
          })}
        </ul>
      )}
      <DataTable
        caption="Runs of each receiver at each place"
        columns={['Receiver', ...places]}
        rows={receivers.map((receiver) => ({
          heading: <bdi>{receiver}</bdi>,
          cells: places.map((place) => {
            const runs = design.find((entry) => entry.receiver === receiver && entry.placement === place)?.runs ?? 0;
            return String(runs);
          }),
        }))}
      />
      <p class="note">
        What a place changes in the mean distance on the whole route, with what receivers and runs change taken out.
      </p>
    </>
  );
}

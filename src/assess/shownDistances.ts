import { knownMedian } from '../model';
import type { MarkDistance } from './Assessment';
import type { NamedPlaced } from './NamedPlaced';
import type { RouteGrid } from './RouteGrid';

/** Distance and time that the recordings of one run show at each mark, in order, and at the finish. */
export function shownDistances(grid: RouteGrid, recordings: readonly NamedPlaced[]): MarkDistance[] {
  const { marks, length } = grid.route;
  const places: { mark: string | null; alongTrack: number }[] = [
    ...marks.map(({ name, alongTrack }) => ({ mark: name, alongTrack })),
    { mark: null, alongTrack: length },
  ];
  return places.flatMap(({ mark, alongTrack }) => {
    const shown = recordings.map(({ name, placed }) => {
      const joined = placed.snapped.alongTrack[placed.first];
      const passing = placed.passing(alongTrack);
      const begun = placed.passing(joined)?.seconds ?? Number.NaN;
      const clock = placed.begun / 1000 + (passing?.seconds ?? Number.NaN);
      return { name, joined, passing, seconds: (passing?.seconds ?? Number.NaN) - begun, clock };
    });
    const clocks = shown.map(({ clock }) => clock).filter(Number.isFinite);
    const shared = clocks.length >= 3 ? knownMedian(clocks) : Number.NaN;
    return shown.map(({ name, joined, passing, seconds, clock }): MarkDistance => {
      const late = clock - shared;
      return {
        recording: name,
        mark,
        alongTrack,
        recorded: passing?.recorded ?? null,
        error: passing ? passing.recorded - (alongTrack - joined) : null,
        seconds: Number.isFinite(seconds) ? seconds : null,
        late: Number.isFinite(late) ? late : null,
      };
    });
  });
}

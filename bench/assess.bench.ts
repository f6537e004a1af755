import { assess, combine, snap } from 'datumline';
import type { Bench } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';
import { windingRide } from './support/windingRide';

/** Six recordings of a winding route at one fix a second and 3 m/s, errors of σ 5 m across and along, ten sections. */
export const run: Bench = ({ smoke }) => {
  const length = smoke ? 1000 : 10_000;
  const { route, recordings } = windingRide(length);
  const once = assess(route, recordings);
  const { whole, snapping, combining } = medianTime(
    {
      whole: () => assess(route, recordings).pairs.length,
      snapping: () => recordings.map((recording) => snap(route, recording)).length,
      combining: () => combine([once, once, once]).pairs.length,
    },
    smoke ? 1 : 7,
  );
  const size = `6 recordings × ${length / 1000} km at 1 Hz`;
  return [
    {
      what: `assess, ${size}: all figures, intervals, pairs`,
      ...promised(whole, 1500),
      peers: [{ name: 'placing the fixes alone', time: showTime(snapping) }],
    },
    { what: `combine, three runs of ${size}`, ours: showTime(combining) },
  ];
};

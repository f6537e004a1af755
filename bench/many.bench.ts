import type { Bench } from './support/Bench';
import { manyTrial } from './support/manyTrial';
import { showTime } from './support/showTime';

/** Recordings a second and core that should be judged at least. */
const PROMISED = 60;

/** Lines of `assess --ndjson` on one thread: recordings of an hour at 1 Hz, read, placed and judged, the route kept. */
export const run: Bench = async ({ smoke }) => {
  const { alone, six, reduce } = await manyTrial(smoke ? 300 : 3600, smoke ? 1 : 15, [smoke ? 2 : 50]);
  const size = `1 h at 1 Hz in GPX, ten sections`;
  const rate = 1000 / alone.each;
  return [
    {
      what: `assess --ndjson, recordings of ${size}, a second of processor time`,
      ours: rate.toFixed(1),
      promise: `≥ ${PROMISED}`,
      held: rate >= PROMISED,
    },
    { what: `assess --ndjson --figures, six of them compared, each`, ours: showTime(six.each) },
    {
      what: `combine --ndjson, a run of six receivers and ten sections`,
      ours: showTime(reduce[0].keeping + reduce[0].combining),
    },
  ];
};

import { assess, assessAsync, combine, prepareRoute, routeBuilder, snap } from 'datumline';
import type { NamedPlaced } from '../src/assess/NamedPlaced';
import { RouteGrid } from '../src/assess/RouteGrid';
import { RunChances } from '../src/assess/RunChances';
import { rowChances } from '../src/assess/rowChances';
import { correlatedOffsets, normals } from '../test/support/correlatedOffsets';
import type { Bench } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';
import { windingRide } from './support/windingRide';

/** Six recordings of a winding route at one fix a second and 3 m/s, errors of σ 5 m across and along, ten sections. */
export const run: Bench = async ({ smoke }) => {
  const length = smoke ? 1000 : 10_000;
  const { route, recordings } = windingRide(length);
  const once = assess(route, recordings);
  const judging = judgements(smoke ? 100 : 1800);
  const hour = windingRide(smoke ? 300 : 10_800);
  const used = prepareRoute(hour.route);
  // one after the other, as in a batch
  const { batch } = medianTime({ batch: () => assess(used, [hour.recordings[0]]).rows.length }, smoke ? 1 : 60);
  const { whole, snapping, combining, intervals } = medianTime(
    {
      intervals: judging,
      whole: () => assess(route, recordings).pairs.length,
      snapping: () => recordings.map((recording) => snap(route, recording)).length,
      combining: () => combine([once, once, once]).pairs.length,
    },
    smoke ? 1 : 7,
  );
  const size = `6 recordings × ${length / 1000} km at 1 Hz`;
  const longest = await longestStretch(() => assessAsync(route, recordings), smoke ? 1 : 7);
  return [
    {
      what: `assess, ${size}: all figures, intervals, pairs`,
      ...promised(whole, 150),
      peers: [{ name: 'placing the fixes alone', time: showTime(snapping) }],
    },
    { what: 'assess one recording of 1 h at 1 Hz on a route used before, sixty in a row', ...promised(batch, 10) },
    {
      what: `assessAsync, ${size}: the longest that anything else waits`,
      ...promised(longest, 50),
    },
    {
      what: `intervals of 6 receivers on 8 sections of ${smoke ? 100 : 1800} bins and of all 15 pairs`,
      ...promised(intervals, 20),
    },
    { what: `combine, three runs of ${size}`, ours: showTime(combining) },
  ];
};

/** Every interval of six receivers on eight sections: mean distance, offset, shares, and the differences of every two. */
function judgements(seconds: number): () => number {
  const builder = routeBuilder().start([2.1, 61.4]);
  for (let i = 0; i < 8; i++) {
    builder.section(`${i}`, { halfWidth: 6 }).lineBy({ azimuth: 90, distance: seconds - 1e-3 });
  }
  const grid = new RouteGrid(builder.build(), []);
  const normal = normals(8);
  const members = Array.from({ length: 6 }, (_, k) => {
    const offset = correlatedOffsets(normal, { seconds: grid.count, correlation: 30 });
    return { name: `${k}`, placed: { offset } } as unknown as NamedPlaced;
  });
  const stretches = [...grid.parts, { first: 0, end: grid.count }];
  return () => {
    const chances = new RunChances(grid, members);
    let sum = 0;
    for (const stretch of stretches) {
      for (const { name } of members) sum += rowChances(chances, name, stretch).effectiveSamples ?? 0;
      for (const [i, first] of members.entries()) {
        for (const second of members.slice(i + 1))
          sum += chances.distances(first.name, second.name, stretch)?.variance ?? 0;
      }
    }
    return sum;
  };
}

/** Milliseconds between two turns of what waits beside the work, at most; of several rounds the least, as others are at work too. */
async function longestStretch(work: () => Promise<unknown>, rounds: number): Promise<number> {
  let least = Infinity;
  for (let round = 0; round < rounds; round++) {
    let longest = 0;
    let last = performance.now();
    let over = false;
    const turn = () => {
      longest = Math.max(longest, performance.now() - last);
      last = performance.now();
      if (!over) setImmediate(turn);
    };
    setImmediate(turn);
    await work();
    over = true;
    await new Promise((resolve) => setImmediate(resolve));
    least = Math.min(least, longest);
  }
  return least;
}

import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import {
  assess,
  followRoute,
  indexRoute,
  prepareRoute,
  readCsv,
  readFit,
  readGeoJson,
  readGpx,
  readKml,
  readNmea,
  readTcx,
  routeFromLine,
  snap,
  snapTogether,
} from 'datumline';
import { written } from './formatsCases';
import { recordingOf, ride, shapes, told } from './inputs';

/** What something keeps for each fix or segment. */
export interface MemoryRow {
  readonly of: string;
  /** What one counts. */
  readonly each: string;
  readonly count: number;
  /** Bytes that are held when the call is over and its garbage collected. */
  readonly bytes: number;
}

/** Bytes kept for each fix and segment, at `n` of them. */
export async function memoryRows(n: number): Promise<MemoryRow[]> {
  setFlagsFromString('--expose-gc');
  const collect: () => void = runInNewContext('gc');
  const rows: MemoryRow[] = [];
  const kept = async (of: string, each: string, count: number, call: () => unknown): Promise<void> => {
    const before = await heldNow(collect);
    const result = await call();
    const bytes = ((await heldNow(collect)) - before) / count;
    // names the call, so that what it was given is held as long
    if (result === undefined || call.length > 0) throw new Error(`${of} gave nothing`);
    rows.push({ of, each, count, bytes });
  };
  // once each beforehand, so that no code is counted
  const [small, shortRide] = ride('wandering', 300);
  assess(prepareRoute(small), [shortRide]);
  snapTogether(small, [shortRide, { ...shortRide, name: 'B' }]);
  indexRoute(small);

  const positions = shapes.wandering(n);
  const line = { lon: positions.map(([lon]) => lon), lat: positions.map(([, lat]) => lat) };
  const segments = n - 1;
  await kept('a route', 'segment', segments, () => routeFromLine(positions));
  const route = routeFromLine(positions);
  await kept('indexRoute', 'segment', segments, () => indexRoute(route));
  const one = recordingOf(told(positions.slice(0, 100)));
  const prepared = prepareRoute(route);
  await kept('prepareRoute, after a snap', 'segment', segments, () => {
    snap(prepared, one);
    return prepared;
  });
  await kept('prepareRoute, what assess adds', 'segment', segments, () => {
    assess(prepared, [one]);
    return prepared;
  });
  const recording = recordingOf(told(positions));
  await kept('a recording with times', 'fix', n, () => recordingOf(positions));
  await kept('snap', 'fix', n, () => snap(prepared, recording));
  await kept('snapTogether, two recordings', 'fix', 2 * n, () =>
    snapTogether(prepared, [recording, { ...recording, name: 'B' }]),
  );
  await kept('assess, one recording', 'fix', n, () => assess(prepared, [recording]));
  const follow = (lag: number) => () => {
    const follower = followRoute(prepared, { lag });
    for (let i = 0; i < n; i++) {
      follower.push({ position: [line.lon[i], line.lat[i]], time: recording.time![i] });
      if (i % 1000 === 0) follower.settled();
    }
    return follower;
  };
  await kept('followRoute, a lag of 60 s', 'fix', n, follow(60));
  await kept('followRoute, `lag: Infinity`', 'fix', n, follow(Infinity));
  const readers = { readGpx, readTcx, readKml, readGeoJson, readNmea, readCsv, readFit };
  for (const [of, read] of Object.entries(readers)) {
    // bytes: a text of many parts is made one when it is first read
    const bytes = (size: number) => {
      const document = written[of](size);
      return typeof document === 'string' ? new TextEncoder().encode(document) : document;
    };
    const document = bytes(n);
    await read(bytes(1000));
    await kept(of, 'fix', n, () => read(document));
  }
  return rows;
}

async function heldNow(collect: () => void): Promise<number> {
  // weak references are let go of at the second; buffers are freed beside, a moment later
  for (let k = 0; k < 3; k++) {
    collect();
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}

import type { Route } from '../../src/subpaths/route';
import type { Recording } from '../../src/model';
import { followRoute } from '../../src/snap/followRoute';
import { hardRides } from '../../test/support/hardRides';
import { figureOfEight, lapsThenOutAndBack, parallelStreets } from '../../test/support/planeRoute';
import { type RunOptions, type SimulatedReceiver, simulateRun } from '../../test/support/simulateRun';

interface Ride { route: Route; recording: Recording; alongTrack: Float64Array }
const laps = lapsThenOutAndBack([5, 52]);
const eight = figureOfEight([5, 52]);
const streets = parallelStreets([5, 52]);
const stop = [{ at: 700, seconds: 60 }];
const gaps = [{ from: 200, to: 320 }];
const lap = [{ from: 234, to: 402 }];
const back = [60, 80].map((metres) => ({ at: 20 * metres, metres }));
const table: [string, Route, Omit<RunOptions, 'seed'>, SimulatedReceiver, ...number[]][] = [
  ['as it comes', laps, {}, {}, 5, 10],
  ['the way back 8 m aside', lapsThenOutAndBack([5, 52], { beside: 8 }), {}, {}, 5, 10],
  ['a stop of 60 s', laps, { stops: stop }, {}, 5, 10],
  ['late start', laps, { from: 150 }, {}, 5, 10],
  ['stop, late start, early end', laps, { stops: stop, from: 60, to: 2500 }, {}, 5, 10],
  ['a gap of 120 s', laps, {}, { gaps }, 5, 10],
  ['three segments', laps, {}, { gaps: [...gaps, { from: 500, to: 530 }] }, 5, 10],
  ['a fix every 10 s', laps, {}, { interval: 10 }, 5, 10],
  ['a fix every 30 s', laps, {}, { interval: 30 }, 5, 10],
  ['no times', laps, {}, { clock: 'none' }, 5, 8],
  ['a lap missing, the clock kept', laps, {}, { gaps: lap }, 5, 8],
  ['going back twice', laps, { backtracks: back }, {}, 5, 10],
  ['three times as fast', laps, { speed: 9 }, {}, 5, 10],
  ['figure of eight', eight, {}, {}, 5, 10],
  ['figure of eight, a stop of 60 s', eight, { stops: stop }, {}, 5, 10],
  ['streets 30 m apart, start = finish', streets, {}, {}, 5, 10],
  ['streets 30 m apart, a gap of 120 s', streets, {}, { gaps }, 5, 10],
  ['over ±180°', lapsThenOutAndBack([180, -17]), {}, {}, 5, 10],
  ['at 80° N', lapsThenOutAndBack([20, 80]), {}, {}, 5, 10],
];
const seeds = [11, 12, 13, 14, 15, 16, 17, 18];
const kinds: [string, number, Ride[]][] = [
  ...table.map(([name, route, options, receiver, ...sigmas]): [string, number, Ride[]] => [
    name, 30,
    sigmas.flatMap((sigma) => seeds.map((seed) => ({ route, ...simulateRun(route, { ...options, seed, receivers: [{ ...receiver, sigma }] })[0] }))),
  ]),
  ...Object.entries(hardRides).map(([name, make]): [string, number, Ride[]] => [name, 60, make(60, 3)]),
];
const total: Record<string, number[]> = {};
const rel: { c: number; right: boolean; k: string }[] = [];
let sq = 0, nsq = 0;
for (const [name, within, rides] of kinds) {
  const tot = { n: 0, once: 0, off: 0, lag: 0, offLag: 0, nl: 0 };
  for (const { route, recording, alongTrack } of rides) {
    const follower = followRoute(route);
    const { lon, lat, time, gapBefore } = recording;
    const settled = [];
    for (let i = 0; i < lon.length; i++) {
      const got = follower.push({ position: [lon[i], lat[i]], ...(time ? { time: time[i] } : {}), gapBefore: gapBefore[i] as 0 });
      settled.push(...follower.settled());
      if (Number.isNaN(alongTrack[i])) continue;
      if (!got.located) { tot.off++; continue; }
      const right = Math.abs(got.located.alongTrack - alongTrack[i]) <= within;
      tot.n++; if (right) tot.once++;
      rel.push({ c: got.confidence, right, k: 'once' });
    }
    settled.push(...follower.end());
    for (const p of settled) {
      const t = alongTrack[p.index];
      if (Number.isNaN(t)) continue;
      if (p.alongTrack === undefined) { tot.offLag++; continue; }
      tot.nl++; const right = Math.abs(p.alongTrack - t) <= within;
      if (right) { tot.lag++; sq += (p.alongTrack - t) ** 2; nsq++; }
      rel.push({ c: p.confidence, right, k: 'lag' });
    }
  }
  const pc = (a: number, b: number) => (100 * a / b).toFixed(2);
  console.log(name.padEnd(40), 'once', pc(tot.once, tot.n), 'off', tot.off, ' lag', pc(tot.lag, tot.nl), 'off', tot.offLag, 'of', tot.n);
  for (const [k, v] of Object.entries(tot)) (total[within] ??= [0,0,0,0,0,0])[Object.keys(tot).indexOf(k)] += v;
}
for (const [w, t] of Object.entries(total)) console.log(w, 'once', (100*t[1]/t[0]).toFixed(3), 'lag', (100*t[3]/t[5]).toFixed(3), 'off', t[2], t[4], t[0]);
console.log('rms along', Math.sqrt(sq / nsq));
for (const k of ['once', 'lag']) for (const c of [0, 0.5, 0.7, 0.9, 0.99]) {
  const those = rel.filter((r) => r.k === k && r.c >= c);
  console.log(k, c, (100 * those.length / rel.filter((r) => r.k === k).length).toFixed(1), (100 * those.filter((r) => r.right).length / those.length).toFixed(2));
}

import { inverse, routeFromLine } from 'datumline';
import type { Position } from 'geojson';
import { expect, it } from 'vitest';
import { RouteGrid } from '../../src/assess/RouteGrid';
import { seeded, wanderingLine } from '../support/randomLine';

/** Metres by which geodesics as the series has them and as they are may differ at an end: see `quickInverse`; and the exact ones' own. */
const AT_END = 4e-9 + 15e-9;

it.each([
  [3, [2.1, 61.4]],
  [40, [179.9999, -33]],
  [400, [11, 48]],
  [5000, [11, 79]],
] as [number, Position][])('turns at vertices %i m apart are those of the exact geodesics', (step, start) => {
  const line = wanderingLine(seeded(9), { start, count: 60, step, turn: 40 });
  const route = routeFromLine(line);
  const { turn } = new RouteGrid(route, []);
  const at = (i: number): Position => [route.lon[i], route.lat[i]];
  const shortest = Math.min(...Array.from(route.alongTrack.slice(1), (along, i) => along - route.alongTrack[i]));
  for (let i = 1; i + 1 < turn.length; i++) {
    const clockwise = inverse(at(i), at(i + 1)).initialAzimuth - inverse(at(i - 1), at(i)).finalAzimuth;
    const left = -(clockwise - 360 * Math.round(clockwise / 360)) * (Math.PI / 180);
    expect(Math.abs(turn[i] - left)).toBeLessThan((2 * AT_END) / shortest);
  }
});

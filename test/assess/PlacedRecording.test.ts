import { direct, routeFromLine, type Snapped, snap } from 'datumline';
import { expect, test } from 'vitest';
import { PlacedRecording } from '../../src/assess/PlacedRecording';
import { RouteGrid } from '../../src/assess/RouteGrid';
import { recordingOf } from './recordingOf';

const start: [number, number] = [2.1, 61.4];
const street = routeFromLine([start, direct(start, 90, 400).position]);
const grid = new RouteGrid(street, []);

/** 100 m along the street, `away` fixes 300 m to its north, and the rest of the street. */
function detour(away: number) {
  const at = (along: number, north: number) =>
    direct(direct(start, 90, along).position, 0, north).position as [number, number];
  const along = Array.from({ length: 41 }, (_, i) => at(10 * i, 0));
  const aside = Array.from({ length: away }, (_, i) => at(100 + (i % 2), 300));
  return recordingOf([...along.slice(0, 11), ...aside, ...along.slice(11)], { name: 'detour' });
}

/** A column that counts how often an entry is read. */
function counted(column: Float64Array) {
  const reads = { count: 0 };
  const proxy = new Proxy(column, {
    get(target, key) {
      if (typeof key === 'string' && /^\d+$/.test(key)) reads.count++;
      const value: unknown = Reflect.get(target, key, target);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
  return { proxy, reads };
}

function readsOf(away: number): number {
  const recording = detour(away);
  const snapped: Snapped = snap(street, recording);
  expect(snapped.state.filter((state) => state === 'off').length).toBe(away);
  const { proxy, reads } = counted(snapped.alongTrack);
  new PlacedRecording(grid, recording, { ...snapped, alongTrack: proxy });
  return reads.count;
}

test('fixes off the route are gone through once, however many there are', () => {
  const [few, many] = [readsOf(500), readsOf(2000)];
  // four times the fixes, four times the work: not sixteen
  expect(many / few).toBeLessThan(4.5);
});

test('what is travelled off the route is credited to where it was left', () => {
  const recording = detour(40);
  const { recorded } = new PlacedRecording(grid, recording, snap(street, recording));
  // 300 m out, 39 steps of a metre and 300 m back, within the few metres by which the body is placed ahead of its foot
  const [bin, metres] = Array.from(recorded.entries()).reduce((most, entry) => (entry[1] > most[1] ? entry : most));
  expect(Math.abs(bin - grid.binAt(100))).toBeLessThan(8);
  expect(Math.abs(metres - 639)).toBeLessThan(3);
});

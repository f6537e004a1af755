import { places, recordingFrom, routeFromLine, type Snapped, snap } from 'datumline';
import { expect, test } from 'vitest';

const route = routeFromLine([
  [5, 60],
  [5.01, 60],
]);
const lon = [5.001, 5.002, 5.003, 5.004, 5.005];
const recording = recordingFrom({
  lon,
  lat: [60.00001, 60.01, 60.01, 60.00001, 59.99999],
  time: lon.map((_, i) => i * 60_000),
});
const snapped = snap(route, recording);

test('each place is its entry of every column', () => {
  const all = [...places(snapped)];
  expect(all.map(({ state }) => state)).toEqual(snapped.state);
  expect(all.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4]);
  for (const { index, confidence, alongTrack, crossTrack, distance, segment } of all) {
    expect(confidence).toBe(snapped.confidence[index]);
    if (snapped.state[index] !== 'on') continue;
    expect([alongTrack, crossTrack, distance, segment]).toEqual([
      snapped.alongTrack[index],
      snapped.crossTrack[index],
      snapped.distance[index],
      snapped.segment[index],
    ]);
  }
});

test('what is not on the route has no place', () => {
  const off = [...places(snapped)].filter(({ state }) => state !== 'on');
  expect(off.length).toBeGreaterThan(0);
  for (const one of off) expect(Object.keys(one)).toEqual(['index', 'state', 'confidence']);
});

test.each([null, {}, recording])('what is no answer of snap is refused', (none) => {
  expect(() => [...places(none as unknown as Snapped)]).toThrow(
    expect.objectContaining({ name: 'InputError', argument: 'snapped' }),
  );
});

import { followRoute, inverse, type Recording, readGpx, recordingFrom, records, routeFromLine } from 'datumline';
import type { Point } from 'geojson';
import { expect, test } from 'vitest';
import { sampleFiles } from '../support/sampleFiles';

test('every fix with what it knows, and nothing that it does not', () => {
  const recording = recordingFrom({
    lon: [5, 5.0001, 5.0002],
    lat: [60, 60, 60],
    time: [0, 1000, null],
    height: [12, null, 0],
    hdop: [1.5, null, null],
    satellites: [null, 7, null],
    accuracy: [null, null, 3],
    gapBefore: [0, 0, 1],
  });
  expect([...records(recording)]).toEqual([
    { index: 0, position: [5, 60, 12], time: 0, hdop: 1.5, before: 'gap' },
    { index: 1, position: [5.0001, 60], time: 1000, satellites: 7, before: 'line' },
    { index: 2, position: [5.0002, 60, 0], accuracy: 3, before: 'gap' },
  ]);
});

test('together they are the columns again', () => {
  const [recording] = readGpx(sampleFiles.gpx);
  const all = [...records(recording)];
  const again = recordingFrom({
    lon: all.map(({ position }) => position[0]),
    lat: all.map(({ position }) => position[1]),
    time: all.map(({ time }) => time),
    height: all.map(({ position }) => position[2]),
    gapBefore: all.map(({ before }) => Number(before === 'gap')),
    name: recording.name,
  });
  for (const key of ['lon', 'lat', 'time', 'height', 'gapBefore'] as const) expect(again[key]).toEqual(recording[key]);
});

test('what takes a fix, or a position, takes one of these', () => {
  const recording = recordingFrom({
    lon: [5, 5.001, 5.002],
    lat: [60, 60, 60],
    time: [0, 9000, null],
    height: [12, null, 0],
  });
  const follower = followRoute(routeFromLine(recording));
  const along = [...records(recording)].map(({ position, time }) => {
    const point: Point = { type: 'Point', coordinates: position };
    expect(inverse(point.coordinates, position).distance).toBe(0);
    return follower.push({ position, time }).located?.alongTrack;
  });
  expect(along[1]).toBeCloseTo(inverse([5, 60], [5.001, 60]).distance, 6);
});

test('an object is the caller’s own: to change it changes no other', () => {
  const recording = recordingFrom({ lon: [5, 5.0001], lat: [60, 60] });
  for (const { position } of records(recording)) position[0] = 0;
  expect(Array.from(recording.lon)).toEqual([5, 5.0001]);
});

test.each([null, undefined, {}, [], 'x'])('%j is refused', (none) => {
  expect(() => [...records(none as unknown as Recording)]).toThrow(
    expect.objectContaining({ name: 'InputError', argument: expect.stringMatching(/^recording/) }),
  );
});

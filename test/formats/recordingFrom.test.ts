import { readCsv, recordingFrom } from 'datumline';
import { describe, expect, test } from 'vitest';

const begun = Date.UTC(2030, 5, 1);
const lon = Array.from({ length: 40 }, (_, i) => 5 + i * 1e-4);
const lat = lon.map(() => 60);
const time = lon.map((_, i) => begun + 5000 * i + (i > 20 ? 60_000 : 0));

describe('columns of one’s own are a recording', () => {
  test('as the same fixes in a file are', () => {
    const rows = lon.map((value, i) => [value.toFixed(4), lat[i], new Date(time[i]).toISOString(), i / 2].join(','));
    const [read] = readCsv(['longitude,latitude,time,height', ...rows].join('\n'), { name: 'A' });
    const own = recordingFrom({ lon: read.lon, lat: read.lat, time, height: lon.map((_, i) => i / 2), name: 'A' });
    for (const key of ['name', 'lon', 'lat', 'time', 'height', 'gapBefore'] as const)
      expect(own[key]).toEqual(read[key]);
    expect(own.gapBefore.reduce((sum, gap) => sum + gap, 0)).toBe(2);
    expect(own.issues.map(({ reason }) => reason)).toEqual(read.issues.map(({ reason }) => reason));
    expect(own.source).toEqual({ format: 'columns' });
  });

  test('whatever can be gone through: typed arrays, generators, dates, what is unknown left open', () => {
    const plain = recordingFrom({ lon, lat, time });
    const others = [
      { lon: Float64Array.from(lon), lat: Float64Array.from(lat), time: Float64Array.from(time) },
      { lon: new Set(lon), lat: lat.values(), time: time.map((at) => new Date(at)).values() },
    ];
    for (const columns of others) expect(recordingFrom(columns)).toEqual(plain);
    const open = recordingFrom({
      lon,
      lat,
      time: time.map((at, i) => (i === 7 ? null : at)),
      hdop: lon.map(() => null),
    });
    expect(open.time![7]).toBeNaN();
    expect(open.hdop).toBeUndefined();
    expect(open.issues).toContainEqual(expect.objectContaining({ reason: 'missing-time', place: 'fix 7' }));
  });

  test('a fix without a position is dropped and noted, a break stated is a break, the columns are left alone', () => {
    const gapBefore = lon.map((_, i) => (i === 30 ? 1 : 0));
    const given = lon.map((value, i) => (i === 3 ? undefined : value));
    const found = recordingFrom({ lon: given, lat: given.map((value) => value && 60), gapBefore });
    expect(found.lon).toHaveLength(39);
    expect([...found.gapBefore.keys()].filter((i) => found.gapBefore[i])).toEqual([0, 3, 29]);
    expect(found.issues).toEqual([expect.objectContaining({ reason: 'missing-position', count: 1, place: 'fix 3' })]);
    found.lon[0] = 9;
    expect(given[0]).toBe(5);
  });
});

test.each([
  [undefined, 'wrong-type', 'columns must be an object'],
  [{ lon }, 'missing', 'columns.lat must be given'],
  [{ lon, lat, Time: time }, 'unknown-key', 'columns.Time must be one of lon, lat'],
  [{ lon, lat: lat.slice(1) }, 'out-of-range', 'columns.lat length must be 40, as lon has, not 39'],
  [{ lon, lat, time: [1] }, 'out-of-range', 'columns.time length must be 40'],
  [{ lon, lat, gapBefore: [1] }, 'out-of-range', 'columns.gapBefore length must be 40'],
  [{ lon: '5,6', lat }, 'wrong-type', 'columns.lon must be a column of numbers'],
  [{ lon: 5, lat }, 'wrong-type', 'columns.lon must be a column of numbers'],
  [{ lon: [...lon.slice(1), '5'], lat }, 'wrong-type', "columns.lon[39] must be a number, not '5'"],
  [{ lon, lat, height: lon.map(() => new Date()) }, 'wrong-type', 'columns.height[0] must be a number'],
  [{ lon, lat, time: lon.map(String) }, 'wrong-type', 'columns.time[0] must be milliseconds or a Date'],
  [{ lon, lat: lat.map(() => Number.NaN) }, 'not-finite', 'fix 0'],
  [{ lon: lat, lat: lon.map(() => 95) }, 'swapped', 'fix 0'],
  [{ lon: [5], lat: [60] }, 'too-few', 'a track of 2 points'],
  [{ lon: [], lat: [] }, 'too-few', 'a track of 2 points'],
  [{ lon, lat, name: 5 }, 'wrong-type', 'columns.name must be a string'],
])('%# is refused in words', (columns, reason, words) => {
  expect(() => recordingFrom(columns as never)).toThrow(
    expect.objectContaining({ reason, message: expect.stringContaining(words) }),
  );
});

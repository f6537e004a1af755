import { readLines, routeFromLine } from 'datumline';
import { expect, test } from 'vitest';
import { sampleFiles } from '../support/sampleFiles';

const shapes = (data: string | Uint8Array) => readLines(data).map(({ name, positions }) => [name, positions]);

test('GPX: routes and tracks, in their order, a line for each segment', () => {
  const point = (tag: string, lon: number, inner = '') => `<${tag} lat="60" lon="${lon}">${inner}</${tag}>`;
  expect(
    shapes(
      `<gpx><wpt lat="1" lon="1"/><rte><name>kerb</name>${point('rtept', 5, '<ele>2</ele>')}${point('rtept', 6)}</rte><trk><name>lane</name>
       <trkseg>${point('trkpt', 1)}${point('trkpt', 2)}</trkseg><trkseg>${point('trkpt', 3)}</trkseg>
       <trkseg>${point('trkpt', 4, '<time>2026-05-01T08:00:00</time>')}${point('trkpt', 5)}</trkseg></trk></gpx>`,
    ),
  ).toEqual([
    [
      'kerb',
      [
        [5, 60, 2],
        [6, 60],
      ],
    ],
    [
      'lane 1',
      [
        [1, 60],
        [2, 60],
      ],
    ],
    [
      'lane 2',
      [
        [4, 60],
        [5, 60],
      ],
    ],
  ]);
});

test('what is left out is told', () => {
  const [line] = readLines(
    `<gpx><wpt lat="1" lon="1"/><rte><rtept lat="60" lon="5"/><rtept lat="" lon="5"/><rtept lat="60" lon="6"/><rtept lat="60" lon="7"/></rte></gpx>`,
  );
  expect(line.positions).toEqual([
    [6, 60],
    [7, 60],
  ]);
  expect(line.issues.map(({ reason, count, place }) => `${reason} ${count} ${place}`)).toEqual([
    'missing-position 1 route 1, point 2',
    'not-a-line 1 line 1, column 28',
    'single-point 1 data',
  ]);
});

test('KML lines, GeoJSON lines and rings, TCX courses, strings of a table', () => {
  expect(
    shapes(
      '<kml><Placemark><name>a</name><LineString><coordinates>5,60 6,60,2</coordinates></LineString></Placemark></kml>',
    ),
  ).toEqual([
    [
      'a',
      [
        [5, 60],
        [6, 60, 2],
      ],
    ],
  ]);
  const ring = [
    [5, 60],
    [6, 60],
    [6, 61],
    [5, 60],
  ];
  expect(
    shapes(
      JSON.stringify({
        type: 'Feature',
        properties: { name: 'yard' },
        geometry: { type: 'Polygon', coordinates: [ring] },
      }),
    ),
  ).toEqual([['yard', ring]]);
  expect(
    shapes(
      `<TrainingCenterDatabase><Courses><Course><Name>c</Name><Track>${[5, 6]
        .map(
          (lon) =>
            `<Trackpoint><Position><LatitudeDegrees>60</LatitudeDegrees><LongitudeDegrees>${lon}</LongitudeDegrees></Position></Trackpoint>`,
        )
        .join('')}</Track></Course></Courses></TrainingCenterDatabase>`,
    ),
  ).toEqual([
    [
      'c',
      [
        [5, 60],
        [6, 60],
      ],
    ],
  ]);
  expect(shapes('string,lat,lon,height\nleft,60,5,1\nleft,60,6,1\nright,61,5,\nright,61,6,\n')).toEqual([
    [
      'left',
      [
        [5, 60, 1],
        [6, 60, 1],
      ],
    ],
    [
      'right',
      [
        [5, 61],
        [6, 61],
      ],
    ],
  ]);
});

test('recordings are lines too, gzipped and packed as well, and all can be authored from', () => {
  for (const key of ['gpx', 'tcx', 'kml', 'kmz', 'geojson', 'csv', 'nmea', 'gzipped'] as const) {
    const [first] = readLines(sampleFiles[key]);
    expect(first.positions.length, key).toBe(6);
    expect(routeFromLine(first.positions).length, key).toBeGreaterThan(5);
  }
});

test.each<[string, string | Uint8Array, object, string, string]>([
  [
    'a FIT file',
    sampleFiles.fit,
    {},
    'wrong-type',
    "data format must be one of gpx, tcx, kml, kmz, geojson, nmea, csv, not 'fit'",
  ],
  [
    'an unknown format',
    'x',
    { format: 'doc' },
    'wrong-type',
    "options.format must be one of gpx, tcx, kml, kmz, geojson, nmea, csv, not 'doc'",
  ],
  ['no line', '<gpx><wpt lat="1" lon="1"/></gpx>', {}, 'too-few', 'data must be a line of at least 2 points'],
  [
    'one point',
    '<gpx><rte><rtept lat="1" lon="1"/></rte></gpx>',
    {},
    'too-few',
    'data must be a line of at least 2 points, not 1',
  ],
  ['an unknown option', 'x', { zone: 'UTC' }, 'unknown-key', 'options.zone must be one of format'],
])('%s is refused', (_, data, options, reason, message) => {
  expect(() => readLines(data, options)).toThrow(
    expect.objectContaining({ reason, message: expect.stringContaining(message) }),
  );
});

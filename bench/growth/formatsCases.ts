import {
  anonymise,
  type Recording,
  readCsv,
  readFit,
  readGeoJson,
  readGpx,
  readKml,
  readLines,
  readNmea,
  readRecording,
  readRecordings,
  readTcx,
  recordingFrom,
  records,
  writeCsv,
  writeGeoJson,
  writeGpx,
  writeKml,
} from 'datumline';
import { FitFile, semicircles } from '../../test/support/FitFile';
import { smallestPoints } from '../support/smallestPoints';
import type { GrowthCase } from './GrowthCase';
import { at, recordingOf, ride, shapes, told } from './inputs';

type Read = (data: string | Uint8Array) => unknown;

const readers: Record<string, Read> = {
  readGpx: (data) => readGpx(data, { maxRecordings: 1e6 }),
  readTcx: (data) => readTcx(data, { maxRecordings: 1e6 }),
  readKml: (data) => readKml(data, { maxRecordings: 1e6 }),
  readGeoJson: (data) => readGeoJson(data, { maxRecordings: 1e6 }),
  readNmea: (data) => readNmea(data, { zone: 'UTC' }),
  readCsv: (data) => readCsv(data, { zone: 'UTC', maxRecordings: 1e6 }),
  readFit: (data) => readFit(data as Uint8Array),
};
/** Read, or refused: what is hostile may be. */
const tried = (read: Read, data: string | Uint8Array) => () => {
  try {
    return read(data);
  } catch {
    return undefined;
  }
};
/** Documents of n points as receivers write them. */
const walked = (n: number): Recording => recordingOf(told(shapes.wandering(n)));
export const written: Record<string, (n: number) => string | Uint8Array> = {
  readGpx: (n) => writeGpx(walked(n), { times: 'absolute' }),
  readTcx: (n) => {
    const { lon, lat, time } = walked(n);
    const points = Array.from(
      lon,
      (east, i) =>
        `<Trackpoint><Time>${new Date(time![i]).toISOString()}</Time><Position><LatitudeDegrees>${lat[i]}</LatitudeDegrees><LongitudeDegrees>${east}</LongitudeDegrees></Position></Trackpoint>`,
    );
    return `<TrainingCenterDatabase><Activities><Activity><Lap><Track>${points.join('')}</Track></Lap></Activity></Activities></TrainingCenterDatabase>`;
  },
  readKml: (n) => writeKml(walked(n), { times: 'absolute' }),
  readGeoJson: (n) => writeGeoJson(walked(n), { times: 'absolute' }),
  readNmea: (n) => {
    const { lat } = walked(n);
    const two = (value: number) => String(Math.floor(value)).padStart(2, '0');
    return Array.from(lat, (_, i) => {
      const said = `GPRMC,${two((i / 3600) % 24)}${two((i / 60) % 60)}${two(i % 60)}.00,A,60${two(i / 5e4)}.${String(i % 1e5).padStart(5, '0')},N,00512.34567,E,3.0,90.0,060531,,,A`;
      const sum = [...said].reduce((mixed, letter) => mixed ^ letter.charCodeAt(0), 0);
      return `$${said}*${sum.toString(16).toUpperCase().padStart(2, '0')}\r\n`;
    }).join('');
  },
  readCsv: (n) => writeCsv(walked(n), { times: 'absolute' }),
  readFit: (n) => {
    const file = new FitFile().message(0, [{ number: 0, type: 'enum', value: 4 }]);
    const { lon, lat } = walked(n);
    for (let i = 0; i < n; i++) {
      file.message(20, [
        { number: 253, type: 'uint32', value: 1e9 + i },
        { number: 0, type: 'sint32', value: semicircles(lat[i]) },
        { number: 1, type: 'sint32', value: semicircles(lon[i]) },
      ]);
    }
    return file.bytes();
  },
};
const least: Record<string, number> = { readGeoJson: 1000, readFit: 300 };
/** Which smallest points are whose. */
const smallest: readonly (readonly [string, string])[] = [
  ['readGpx', 'GPX'],
  ['readTcx', 'TCX'],
  ['readKml', 'KML'],
  ['readKml', 'KML tracks'],
  ['readGeoJson', 'GeoJSON'],
  ['readGeoJson', 'GeoJSON lines'],
  ['readNmea', 'NMEA'],
  ['readCsv', 'CSV'],
  ['readFit', 'FIT'],
];
const attributes = (n: number) => Array.from({ length: n }, (_, i) => `a${i}=""`).join(' ');
const track = (point: string) => `<trk><trkseg>${point}</trkseg></trk>`;
const point = '<trkpt lat="1" lon="1"/>';
const hostile: readonly (readonly [of: string, input: string, least: number, make: (n: number) => string])[] = [
  ['readGpx', 'n tracks of one point', 10_000, (n) => `<gpx>${track(point).repeat(n)}</gpx>`],
  ['readGpx', 'n tracks of two points', 2000, (n) => `<gpx>${track(point + point.replace('1', '2')).repeat(n)}</gpx>`],
  ['readGpx', 'n empty tracks', 10_000, (n) => `<gpx>${'<trk/>'.repeat(n)}</gpx>`],
  ['readGpx', 'one element of n attributes', 400, (n) => `<gpx><trk ${attributes(n)}>${track(point)}</trk></gpx>`],
  ['readGpx', 'n elements within one another', 1000, (n) => `<gpx>${'<a>'.repeat(n)}${'</a>'.repeat(n)}</gpx>`],
  ['readGpx', 'a name of n references', 10_000, (n) => `<gpx><trk><name>${'&amp;'.repeat(n)}</name><trkseg>${point}</trkseg></trk></gpx>`],
  ['readGpx', 'a comment of n hyphens', 10_000, (n) => `<gpx><!--${' -'.repeat(n)}--></gpx>`],
  ['readTcx', 'n laps of no point', 5000, (n) => `<TrainingCenterDatabase><Activities><Activity>${'<Lap><Track/></Lap>'.repeat(n)}</Activity></Activities></TrainingCenterDatabase>`],
  ['readTcx', 'one element of n attributes', 400, (n) => `<TrainingCenterDatabase ${attributes(n)}/>`],
  ['readKml', 'n placemarks of no line', 5000, (n) => `<kml>${'<Placemark><LineString/></Placemark>'.repeat(n)}</kml>`],
  ['readKml', 'n placemarks of two points', 2000, (n) => `<kml>${'<Placemark><LineString><coordinates>1,1 1,2</coordinates></LineString></Placemark>'.repeat(n)}</kml>`],
  ['readKml', 'one element of n attributes', 400, (n) => `<kml ${attributes(n)}/>`],
  ['readGeoJson', 'n lines of two points', 2000, (n) => `{"type":"FeatureCollection","features":[${Array(n).fill('{"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":[[1,1],[1,2]]}}').join()}]}`],
  ['readGeoJson', 'n collections within one another', 100, (n) => `${'{"type":"GeometryCollection","geometries":['.repeat(n)}${']}'.repeat(n)}`],
  ['readGeoJson', 'n properties', 1000, (n) => `{"type":"Feature","properties":{${Array.from({ length: n }, (_, i) => `"p${i}":1`).join()}},"geometry":{"type":"LineString","coordinates":[[1,1],[1,2]]}}`],
  ['readNmea', 'a line of n blanks before a bad checksum', 10_000, (n) => `$GPGLL${' '.repeat(n)}*zz\n$GPGLL,0100,N,00100,E\n$GPGLL,0100,N,00101,E\n`],
  ['readNmea', 'n lines that are no sentence', 5000, (n) => `${'$GP*\n'.repeat(n)}$GPGLL,0100,N,00100,E\n$GPGLL,0100,N,00101,E\n`],
  ['readCsv', 'n names of two rows each', 2000, (n) => `name,lat,lon\n${Array.from({ length: n }, (_, i) => `${i},1,1\n${i},1,2\n`).join('')}`],
  ['readCsv', 'n columns', 1000, (n) => `lat,lon,${Array.from({ length: n }, (_, i) => `c${i}`).join()}\n${`1,1,${Array(n).fill('x').join()}\n`.repeat(3)}`],
  ['readCsv', 'n rows before the header', 1000, (n) => `${'x;y\n'.repeat(n)}lat;lon\n1;1\n1;2\n`],
  ['readCsv', 'a number of n digits and a letter', 2000, (n) => `lat,lon\n1,1\n1,${'1'.repeat(n)}x\n1,2\n`],
  ['readCsv', 'a quoted cell of n quotes', 10_000, (n) => `lat,lon,name\n1,1,"${'""'.repeat(n)}"\n1,2,""\n`],
]; // biome-ignore format: a table

const parsed = { exponent: 1.4, says: 'as that of `JSON.parse` does, up to n^1.4' };
const oneText = { exponent: 1.3, says: 'within one text or comment of megabytes up to n^1.3' };
/** What the docstring admits to, of inputs of a reader. */
const statedOf = (of: string, input: string) => ({
  ...(of === 'readGeoJson' ? { stated: parsed } : {}),
  ...(/^a (name|comment) of n/.test(input) ? { stated: oneText } : {}),
});

const many = (n: number): Recording[] => {
  const [first] = [walked(3)];
  return Array.from({ length: n }, (_, i) => ({ ...first, name: `${i}` }));
};
const writers = { writeGpx, writeKml, writeGeoJson, writeCsv };

export const formatsCases: readonly GrowthCase[] = [
  ...Object.entries(readers).map(
    ([of, read]): GrowthCase => ({
      of,
      input: 'n points as receivers write them',
      kind: 'easy',
      least: least[of] ?? 500,
      make: (n) => {
        const data = written[of](n);
        return () => read(data);
      },
      ...statedOf(of, ''),
    }),
  ),
  ...smallest.map(
    ([of, format]): GrowthCase => ({
      of,
      input: `n bytes of ${format}, points as small as can be`,
      kind: 'hostile',
      least: 20_000,
      make: (n) => tried(readers[of], smallestPoints(format, n)),
      ...statedOf(of, format),
    }),
  ),
  ...hostile.map(
    ([of, input, size, make]): GrowthCase => ({
      of,
      input,
      kind: 'hostile',
      least: size,
      make: (n) => tried(readers[of], make(n)),
      ...statedOf(of, input),
    }),
  ),
  {
    of: 'readFit',
    input: 'n sessions of no point',
    kind: 'hostile',
    least: 300,
    make: (n) => {
      const file = new FitFile().message(0, [{ number: 0, type: 'enum', value: 4 }]);
      for (let i = 0; i < n; i++) file.message(18, [{ number: 253, type: 'uint32', value: 1e9 + i }]);
      const bytes = file.bytes();
      return async () => {
        try {
          return await readFit(bytes);
        } catch {
          return undefined;
        }
      };
    },
  },
  ...([readRecordings, readRecording] as const).map(
    (read): GrowthCase => ({
      of: read.name,
      input: 'GPX of n points',
      kind: 'easy',
      least: 500,
      make: (n) => {
        const data = written.readGpx(n);
        return () => read(data);
      },
    }),
  ),
  {
    of: 'readLines',
    input: 'GeoJSON of n points',
    kind: 'easy',
    least: 1000,
    make: (n) => {
      const data = written.readGeoJson(n) as string;
      return () => readLines(data);
    },
  },
  {
    of: 'readLines',
    input: 'n lines of two points',
    kind: 'hostile',
    least: 500,
    make: (n) => {
      const data = `{"type":"MultiLineString","coordinates":[${Array(n).fill('[[1,1],[1,2]]').join()}]}`;
      return tried(() => readLines(data, { maxRecordings: 1e6 }), '');
    },
  },
  {
    of: 'recordingFrom',
    input: 'n fixes',
    kind: 'easy',
    least: 2000,
    make: (n) => {
      const { lon, lat, time } = walked(n);
      return () => recordingFrom({ lon, lat, time });
    },
  },
  {
    of: 'recordingFrom',
    input: 'n fixes, times that run back and forth',
    kind: 'hostile',
    least: 2000,
    make: (n) => {
      const { lon, lat, time } = walked(n);
      const jumping = time!.map((instant, i) => instant - (i % 3) * 5000);
      return () => recordingFrom({ lon, lat, time: jumping });
    },
  },
  {
    of: 'records',
    input: 'n fixes',
    kind: 'easy',
    least: 2000,
    make: (n) => {
      const recording = walked(n);
      return () => {
        let count = 0;
        for (const _ of records(recording)) count++;
        return count;
      };
    },
  },
  ...Object.entries(writers).flatMap(([of, write]): GrowthCase[] => [
    {
      of,
      input: 'a recording of n fixes',
      kind: 'easy',
      least: 500,
      make: (n) => {
        const recording = walked(n);
        return () => write(recording);
      },
    },
    {
      of,
      input: 'n recordings of three fixes',
      kind: 'hostile',
      least: 100,
      make: (n) => {
        const recordings = many(n);
        return () => write(recordings);
      },
    },
  ]),
  {
    of: 'writeGpx',
    input: 'a route of n vertices',
    kind: 'easy',
    least: 500,
    make: (n) => {
      const [route] = ride('wandering', n);
      return () => writeGpx(route);
    },
  },
  {
    of: 'anonymise',
    input: 'n fixes by a route of as many vertices',
    kind: 'easy',
    least: 300,
    make: (n) => {
      const [route, recording] = ride('wandering', n);
      return () => anonymise(recording, { route });
    },
  },
  {
    of: 'anonymise',
    input: '1000 fixes, n zones',
    kind: 'hostile',
    least: 10,
    make: (n) => {
      const recording = walked(1000);
      const zones = Array.from({ length: n }, (_, i) => ({ centre: at(-1e4 - i, 0), radius: 100 }));
      return () => anonymise(recording, { zones });
    },
  },
  {
    of: 'anonymise',
    input: '1000 fixes, a zone of n corners',
    kind: 'hostile',
    least: 30,
    make: (n) => {
      const recording = walked(1000);
      const ring = Array.from({ length: n }, (_, i) => {
        const angle = (2 * Math.PI * i) / n;
        return at(-1e4 + 100 * Math.sin(angle), 100 * Math.cos(angle));
      });
      const zone = { type: 'Polygon' as const, coordinates: [[...ring, ring[0]]] };
      return () => anonymise(recording, { zones: [zone] });
    },
  },
];

import { readRecordings } from 'datumline';
import fc from 'fast-check';
import { zipSync } from 'fflate';
import { expect, test } from 'vitest';
import { FitFile, recordFields } from '../support/FitFile';
import { sentence } from '../support/sampleFiles';

/** What can be wrong with a point of a file. */
const defects = [
  'none',
  'missing-position',
  'zero-position',
  'invalid-position',
  'no-fix',
  'entered-position',
  'estimated-position',
  'repeated-fix',
  'repeated-time',
  'reversed-time',
  'unreadable-time',
  'unreadable-height',
  'unreadable-quality',
  'invalid-height',
  'wrapped-longitude',
  'extra-numbers',
  'ragged-row',
] as const;
type Defect = (typeof defects)[number];

/** Those that take the point out of the recording. */
const dropping = new Set<Defect>([
  'missing-position',
  'zero-position',
  'invalid-position',
  'no-fix',
  'entered-position',
  'repeated-fix',
  'ragged-row',
]);

interface Point {
  readonly defect: Defect;
  readonly lon: number;
  readonly lat: number;
  readonly second: number;
}

const BEGIN = Date.UTC(2026, 4, 1, 8);
const iso = (second: number) => new Date(BEGIN + second * 1000).toISOString().replace('.000', '');
/** As text: what the point writes for each of its values. */
function words({ defect, lon, lat, second }: Point) {
  const place =
    defect === 'missing-position'
      ? ['', '']
      : defect === 'zero-position'
        ? ['0', '0']
        : defect === 'invalid-position'
          ? ['180', '180']
          : [String(defect === 'wrapped-longitude' ? lon + 360 : lon), String(lat)];
  return {
    lon: place[0],
    lat: place[1],
    time: defect === 'unreadable-time' ? 'noon' : iso(second),
    height: defect === 'unreadable-height' ? 'high' : defect === 'invalid-height' ? '-32768' : '7',
    hdop: defect === 'unreadable-quality' ? 'good' : '1.5',
  };
}
const tag = (name: string, text: string) => `<${name}>${text}</${name}>`;

/** Of each format a document of these points, and which defects it can have. */
const formats: Record<
  string,
  { can: readonly Defect[]; place: (point: number) => string; write: (points: readonly Point[]) => string | Uint8Array }
> = {
  GPX: {
    place: (i) => `track 1, segment 1, point ${i}`,
    can: ['no-fix', 'unreadable-time', 'unreadable-height', 'unreadable-quality', 'invalid-height'],
    write: (points) =>
      `<gpx><trk><trkseg>${points
        .map((point) => {
          const { lon, lat, time, height, hdop } = words(point);
          const fix = point.defect === 'no-fix' ? tag('fix', 'none') : '';
          return `<trkpt lat="${lat}" lon="${lon}">${tag('ele', height)}${tag('time', time)}${fix}${tag('hdop', hdop)}</trkpt>`;
        })
        .join('')}</trkseg></trk></gpx>`,
  },
  TCX: {
    place: (i) => `activity 1, lap 1, track 1, point ${i}`,
    can: ['unreadable-time', 'unreadable-height', 'invalid-height'],
    write: (points) =>
      `<TrainingCenterDatabase><Activities><Activity><Lap><Track>${points
        .map((point) => {
          const { lon, lat, time, height } = words(point);
          const place = tag('Position', tag('LatitudeDegrees', lat) + tag('LongitudeDegrees', lon));
          const at = point.defect === 'missing-position' ? '' : place;
          return tag('Trackpoint', tag('Time', time) + at + tag('AltitudeMeters', height));
        })
        .join('')}</Track></Lap></Activity></Activities></TrainingCenterDatabase>`,
  },
  'KML track': {
    place: (i) => `placemark 1, line 1, point ${i}`,
    can: ['unreadable-time', 'unreadable-height', 'invalid-height', 'extra-numbers'],
    write: (points) => `<kml><Placemark><Track>${stampsAndCoords(points)}</Track></Placemark></kml>`,
  },
  KMZ: {
    place: (i) => `placemark 1, line 1, point ${i}`,
    can: ['unreadable-time', 'unreadable-height', 'invalid-height', 'extra-numbers'],
    write: (points) =>
      zipSync({
        'doc.kml': new TextEncoder().encode(
          `<kml><Placemark><Track>${stampsAndCoords(points)}</Track></Placemark></kml>`,
        ),
      }),
  },
  'KML points': {
    place: (i) => `placemark ${i}`,
    can: ['unreadable-time', 'unreadable-height', 'invalid-height', 'extra-numbers'],
    write: (points) =>
      `<kml><Folder>${points
        .map((point) => {
          const { lon, lat, time, height } = words(point);
          const more = point.defect === 'extra-numbers' ? ',1' : '';
          const place = point.defect === 'missing-position' ? '' : `${lon},${lat},${height}${more}`;
          return tag('Placemark', tag('TimeStamp', tag('when', time)) + tag('Point', tag('coordinates', place)));
        })
        .join('')}</Folder></kml>`,
  },
  'GeoJSON line': {
    place: (i) => `data, position ${i}`,
    can: ['unreadable-time', 'unreadable-height', 'unreadable-quality', 'invalid-height', 'extra-numbers'],
    write: (points) => {
      const hdop = points.map(({ defect }) => (defect === 'unreadable-quality' ? 'good' : 1.5));
      const times = points.map((point) => words(point).time);
      const geometry = { type: 'LineString', coordinates: points.map(position) };
      return JSON.stringify({ type: 'Feature', properties: { coordinateProperties: { times, hdop } }, geometry });
    },
  },
  'GeoJSON points': {
    place: (i) => `feature ${i}`,
    can: ['unreadable-time', 'unreadable-height', 'unreadable-quality', 'invalid-height', 'extra-numbers'],
    write: (points) =>
      JSON.stringify({
        type: 'FeatureCollection',
        features: points.map((point) => ({
          type: 'Feature',
          properties: { time: words(point).time, hdop: point.defect === 'unreadable-quality' ? 'good' : 1.5 },
          geometry: { type: 'Point', coordinates: position(point) },
        })),
      }),
  },
  CSV: {
    place: (i) => `line ${i + 1}`,
    can: ['unreadable-time', 'unreadable-height', 'unreadable-quality', 'invalid-height', 'ragged-row'],
    write: (points) =>
      `lon,lat,time,height,hdop\n${points
        .map((point) => {
          const { lon, lat, time, height, hdop } = words(point);
          return [lon, lat, time, height, hdop].slice(0, point.defect === 'ragged-row' ? 3 : 5).join();
        })
        .join('\n')}`,
  },
  NMEA: {
    place: (i) => `line ${2 * i - 1}`,
    can: ['no-fix', 'entered-position', 'estimated-position', 'unreadable-height', 'unreadable-quality'],
    write: (points) =>
      points
        .map(({ defect, lon, lat, second }) => {
          const angle = (degrees: number, digits: number) => {
            const minutes = (degrees - Math.floor(degrees)) * 60;
            return `${String(Math.floor(degrees)).padStart(digits, '0')}${minutes.toFixed(7).padStart(10, '0')}`;
          };
          const [at, beside] = defect === 'zero-position' ? [0, 0] : [lat, lon];
          const place = defect === 'missing-position' ? ',,,' : `${angle(at, 2)},N,${angle(beside, 3)},E`;
          const mode = { 'no-fix': 'N', 'entered-position': 'M', 'estimated-position': 'E' }[defect as string] ?? 'A';
          const clock = iso(second).slice(11, 19).replaceAll(':', '');
          const hdop = defect === 'unreadable-quality' ? 'good' : '1.5';
          const height = defect === 'unreadable-height' ? 'high' : '7';
          return `${sentence(`GPRMC,${clock},A,${place},,,010526,,,${mode}`)}\n${sentence(`GPGGA,${clock},${place},1,9,${hdop},${height},M,,M,,`)}`;
        })
        .join('\n'),
  },
  FIT: {
    place: (i) => `part 1, record ${i}`,
    can: [],
    write: (points) => {
      const file = new FitFile();
      for (const { defect, lon, lat, second } of points) {
        const fields =
          defect === 'missing-position' || defect === 'invalid-position'
            ? recordFields(BEGIN / 1000 + second, undefined, undefined, 7)
            : defect === 'zero-position'
              ? recordFields(BEGIN / 1000 + second, 0, 0, 7)
              : recordFields(BEGIN / 1000 + second, lat, lon, 7);
        file.message(20, fields);
      }
      return file.bytes();
    },
  },
};

function stampsAndCoords(points: readonly Point[]): string {
  return points
    .map((point) => {
      const { lon, lat, time, height } = words(point);
      const more = point.defect === 'extra-numbers' ? ' 1' : '';
      const place = point.defect === 'missing-position' ? '' : `${lon} ${lat} ${height}${more}`;
      return tag('when', time) + tag('coord', place);
    })
    .join('');
}

function position(point: Point): unknown {
  const { lon, lat, height } = words(point);
  if (point.defect === 'missing-position') return [null, null];
  const up = point.defect === 'unreadable-height' ? 'high' : Number(height);
  return [Number(lon), Number(lat), up, ...(point.defect === 'extra-numbers' ? [1] : [])];
}

/** What every format can have wrong; NMEA and FIT have no mark for 180, 180 of their own. */
const always = ['none', 'missing-position', 'zero-position', 'repeated-fix', 'repeated-time', 'reversed-time'] as const;
const onlyText = ['invalid-position', 'wrapped-longitude'] as const;

test.each(Object.entries(formats))(
  '%s: every point is kept or counted, every mended value counted',
  async (key, it) => {
    const possible: Defect[] = [...always, ...(key === 'NMEA' || key === 'FIT' ? [] : onlyText), ...it.can];
    const seen = new Set<Defect>();
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.oneof({ weight: 2, arbitrary: fc.constant<Defect>('none') }, fc.constantFrom(...possible)), {
          minLength: 1,
          maxLength: 30,
        }),
        async (list) => {
          const points: Point[] = [];
          const expected = new Map<string, number>();
          let second = 0;
          for (const defect of ['none', ...list, 'none'] as Defect[]) {
            // what the point before is must be known for a point to repeat it
            const before = points.at(-1);
            const plain = before?.defect === 'none' && points.length > 0;
            const kind =
              ['repeated-fix', 'repeated-time', 'reversed-time'].includes(defect) && !plain ? 'none' : defect;
            const step = points.length;
            if (kind === 'repeated-fix') points.push({ ...before!, defect: kind });
            else {
              second = kind === 'repeated-time' ? second : kind === 'reversed-time' ? second - 1 : second + 2;
              points.push({ defect: kind, lon: 5 + step * 1e-5, lat: 60 + step * 1e-6, second });
            }
            if (kind === 'reversed-time') second += 2;
            if (kind !== 'none') {
              expected.set(kind, (expected.get(kind) ?? 0) + 1);
              seen.add(kind);
            }
          }
          const kept = points.filter(({ defect }) => !dropping.has(defect));
          const [recording, ...others] = await readRecordings(it.write(points));
          expect(others).toEqual([]);
          // derived from the whole, not from one point
          const derived = ['missing-time', 'time-gap', 'teleport', 'frozen-position'];
          const told = new Map(
            recording.issues
              .filter(({ reason }) => !derived.includes(reason))
              .map((issue) => [issue.reason, issue.count]),
          );
          expect([...told].sort()).toEqual([...expected].sort());
          for (const { reason, place } of recording.issues) {
            const first = points.findIndex(({ defect }) => defect === reason);
            if (first >= 0) expect(place).toBe(it.place(first + 1));
          }
          expect(recording.lon.length).toBe(kept.length);
          const lost = [...told].reduce(
            (sum, [reason, count]) => sum + (dropping.has(reason as Defect) ? count : 0),
            0,
          );
          expect(recording.lon.length + lost).toBe(points.length);
          kept.forEach(({ defect, lon, lat, second: at }, i) => {
            // semicircles and ten-millionths of minutes are the coarsest
            expect(Math.abs(recording.lon[i] - lon)).toBeLessThan(1e-7);
            expect(Math.abs(recording.lat[i] - lat)).toBeLessThan(1e-7);
            expect(recording.time![i]).toBe(defect === 'unreadable-time' ? Number.NaN : BEGIN + at * 1000);
            const high = defect === 'unreadable-height' || defect === 'invalid-height' ? Number.NaN : 7;
            expect(recording.height![i]).toBe(high);
          });
        },
      ),
      { seed: 51, numRuns: 120 },
    );
    // each of them came up
    expect([...seen].sort()).toEqual(possible.filter((defect) => defect !== 'none').sort());
  },
);

import { gzipSync, zipSync } from 'fflate';
import { FitFile, recordFields, timerFields } from './FitFile';

/** The invented scenario of the samples: six fixes a second apart on a quay, a pause, six more. */
const BEGIN = Date.UTC(2026, 4, 1, 8, 0, 0);
const fixes = Array.from({ length: 12 }, (_, i) => ({
  time: BEGIN + i * 1000 + (i < 6 ? 0 : 30_000),
  lon: 5 + i * 2e-5,
  lat: 60 + (i % 3) * 1e-6,
  height: 3 + i / 8,
}));
const iso = (time: number) => new Date(time).toISOString();
const halves = [fixes.slice(0, 6), fixes.slice(6)];
const bytes = (text: string) => new TextEncoder().encode(text);

const gpx = `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="a receiver &amp; co" xmlns="http://www.topografix.com/GPX/1/1" xmlns:x="urn:x">
<!-- invented --><trk><name>quay</name><number>1</number>${halves
  .map(
    (half) =>
      `<trkseg>${half
        .map(
          ({ time, lon, lat, height }) =>
            `<trkpt lat="${lat}" lon="${lon}"><ele>${height}</ele><time>${iso(time)}</time><sat>9</sat><hdop>0.8</hdop>` +
            '<extensions><x:hr>120</x:hr></extensions></trkpt>',
        )
        .join('\n')}</trkseg>`,
  )
  .join('\n')}</trk></gpx>`;

const tcx = `<?xml version="1.0"?><TrainingCenterDatabase xmlns="urn:tcx"><Activities><Activity Sport="Biking"><Id>1</Id>
<Lap StartTime="${iso(BEGIN)}"><DistanceMeters>10.5</DistanceMeters>${halves
  .map(
    (half) =>
      `<Track>${half
        .map(
          ({ time, lon, lat, height }) =>
            `<Trackpoint><Time>${iso(time)}</Time><Position><LatitudeDegrees>${lat}</LatitudeDegrees>` +
            `<LongitudeDegrees>${lon}</LongitudeDegrees></Position><AltitudeMeters>${height}</AltitudeMeters></Trackpoint>`,
        )
        .join('\n')}</Track>`,
  )
  .join('')}</Lap></Activity></Activities></TrainingCenterDatabase>`;

const kml = `<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2" xmlns:k="urn:k"><Document><Folder>
<Placemark><name>quay</name><k:MultiTrack>${halves
  .map(
    (half) =>
      `<k:Track><altitudeMode>absolute</altitudeMode>${half.map(({ time }) => `<when>${iso(time)}</when>`).join('')}${half
        .map(({ lon, lat, height }) => `<k:coord>${lon} ${lat} ${height}</k:coord>`)
        .join('')}</k:Track>`,
  )
  .join('')}</k:MultiTrack></Placemark>
<Placemark><name>lane</name><LineString><coordinates>5,60 5.001,60.001</coordinates></LineString></Placemark>
</Folder></Document></kml>`;

const geojson = JSON.stringify({
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      properties: { name: 'quay', coordTimes: halves.map((half) => half.map(({ time }) => iso(time))) },
      geometry: {
        type: 'MultiLineString',
        coordinates: halves.map((half) => half.map(({ lon, lat, height }) => [lon, lat, height])),
      },
    },
  ],
});

const csv = `recording,segment,time (UTC),longitude (deg),latitude (deg),height (m)\r\n${halves
  .flatMap((half, k) =>
    half.map(({ time, lon, lat, height }) => `"quay, out",${k + 1},${iso(time)},${lon},${lat},${height}\r\n`),
  )
  .join('')}`;

/** A sentence with its checksum, computed here: the reader's is not used. */
export function sentence(body: string): string {
  const sum = [...body].reduce((all, character) => all ^ character.charCodeAt(0), 0);
  return `$${body}*${sum.toString(16).toUpperCase().padStart(2, '0')}`;
}

const nmea = fixes
  .flatMap(({ time, lon, lat, height }) => {
    const clock = `${iso(time).slice(11, 19).replaceAll(':', '')}.00`;
    const north = `60${((lat - 60) * 60).toFixed(6).padStart(9, '0')},N`;
    const east = `005${((lon - 5) * 60).toFixed(6).padStart(9, '0')},E`;
    return [
      sentence(`GNGGA,${clock},${north},${east},1,09,0.8,${height},M,46.9,M,,`),
      sentence(`GNRMC,${clock},A,${north},${east},4.0,090.0,010526,,,A`),
      sentence('GPGSV,1,1,00'),
    ];
  })
  .join('\r\n');

const fitFile = new FitFile().message(0, [{ number: 0, type: 'enum', value: 4 }]);
halves.forEach((half) => {
  fitFile.message(21, timerFields(half[0].time / 1000, 0), 2);
  for (const { time, lon, lat, height } of half) fitFile.message(20, recordFields(time / 1000, lat, lon, height), 1);
  fitFile.message(21, timerFields(half[5].time / 1000, 4), 2);
});
fitFile.message(
  18,
  [
    { number: 253, type: 'uint32', value: 0 },
    { number: 5, type: 'enum', value: 2 },
  ],
  3,
);

/** A valid document of each format, all of the same twelve fixes. */
export const sampleFiles = {
  gpx: bytes(gpx),
  tcx: bytes(tcx),
  kml: bytes(kml),
  kmz: zipSync({ 'files/other.kml': bytes('<kml/>'), 'doc.kml': bytes(kml) }),
  geojson: bytes(geojson),
  nmea: bytes(nmea),
  csv: bytes(csv),
  fit: fitFile.bytes(),
  gzipped: gzipSync(bytes(gpx), { mtime: 0 }),
} as const;

/** What they hold. */
export const sampleFixes = fixes;

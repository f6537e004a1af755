/** How a document of each format looks whose points take the fewest bytes there are: what comes before, between and after. */
const shapes: Readonly<Record<string, readonly [begin: string, point: (i: number) => string, end: string]>> = {
  GPX: ['<gpx><trk><trkseg>', (i) => `<trkpt lat="1" lon="${1 + (i & 1)}"/>`, '</trkseg></trk></gpx>'],
  TCX: [
    '<TrainingCenterDatabase><Activities><Activity><Lap><Track>',
    (i) =>
      `<Trackpoint><Position><LatitudeDegrees>1</LatitudeDegrees><LongitudeDegrees>${1 + (i & 1)}</LongitudeDegrees></Position></Trackpoint>`,
    '</Track></Lap></Activity></Activities></TrainingCenterDatabase>',
  ],
  KML: [
    '<kml><Placemark><LineString><coordinates>',
    (i) => `1,${1 + (i & 1)} `,
    '</coordinates></LineString></Placemark></kml>',
  ],
  'KML tracks': ['<kml><Placemark><Track>', (i) => `<coord>1 ${1 + (i & 1)}</coord>`, '</Track></Placemark></kml>'],
  GeoJSON: ['{"type":"LineString","coordinates":[[1,1]', (i) => `,[1,${1 + (i & 1)}]`, ']}'],
  'GeoJSON lines': ['{"type":"MultiLineString","coordinates":[[[1,1],[1,2]]', () => ',[]', ']}'],
  CSV: ['lat,lon\n', (i) => `1,${1 + (i & 1)}\n`, ''],
  'GPX tracks': [
    '<gpx><trk><trkseg><trkpt lat="1" lon="1"/><trkpt lat="1" lon="2"/></trkseg></trk>',
    () => '<trk/>',
    '</gpx>',
  ],
  'GPX comment': [
    '<gpx><trk><trkseg><trkpt lat="1" lon="1"/><trkpt lat="1" lon="2"/></trkseg></trk><!--',
    () => '- ',
    '--></gpx>',
  ],
  'GPX attribute': [
    '<gpx><trk><trkseg><trkpt lat="1" lon="1"/><trkpt lat="1" lon="2"/></trkseg></trk><a b="',
    () => '\n',
    '"/></gpx>',
  ],
  'KML lines': [
    '<kml><Placemark><LineString><coordinates>1,1 1,2</coordinates></LineString>',
    () => '<LineString/>',
    '</Placemark></kml>',
  ],
  'KML placemarks': [
    '<kml><Placemark><LineString><coordinates>1,1 1,2</coordinates></LineString></Placemark>',
    () => '<Placemark/>',
    '</kml>',
  ],
  'CSV segments': ['segment,lat,lon\n', (i) => `${i},1,${1 + (i & 1)}\n`, ''],
  'GeoJSON objects': ['{"type":"LineString","coordinates":[[1,1],[1,2]],"x":[{}', () => ',{}', ']}'],
  NMEA: ['$GPGLL,0100,N,00100,E\n', (i) => `$GPGLL,0100,N,0010${i & 1},E\n`, ''],
};

/** A document of about so many bytes whose points are as small as its format allows. */
export function smallestPoints(format: string, bytes: number): Uint8Array {
  if (format === 'FIT') return smallestFit(bytes);
  if (format === 'CSV names') return smallestNames(bytes);
  const [begin, point, end] = shapes[format];
  const pair = point(0) + point(1);
  return new TextEncoder().encode(begin + pair.repeat(Math.ceil(bytes / pair.length)) + end);
}

/** A recording of its own in each row. */
function smallestNames(bytes: number): Uint8Array {
  const rows = Array.from({ length: Math.ceil(bytes / 9) }, (_, i) => `${i.toString(36)},1,1\n`);
  return new TextEncoder().encode(`track,lat,lon\n${rows.join('')}`);
}

/** Records of a latitude and a longitude alone: 9 bytes each. */
function smallestFit(bytes: number): Uint8Array {
  const definition = [0x40, 0, 0, 20, 0, 2, 0, 4, 0x85, 1, 4, 0x85];
  const count = Math.ceil(bytes / 9);
  const size = definition.length + count * 9;
  const file = new Uint8Array(12 + size + 2);
  const view = new DataView(file.buffer);
  file.set([12, 0x10, 0, 0, 0, 0, 0, 0, 0x2e, 0x46, 0x49, 0x54]);
  view.setUint32(4, size, true);
  file.set(definition, 12);
  for (let i = 0; i < count; i++) {
    const at = 12 + definition.length + i * 9;
    view.setInt32(at + 1, 1e7, true);
    view.setInt32(at + 5, 1e7 + (i & 1), true);
  }
  return file;
}

/** The formats with a document of smallest points. */
export const smallestFormats = [...Object.keys(shapes), 'CSV names', 'FIT'];

/**
 * Content models of the GPX 1.1 schema, http://www.topografix.com/GPX/1/1, for the elements that are written: what may
 * stand in each, in order, `*` any number of times. The schema itself may not be shipped with this project for certain, so
 * that written files are held against this transcription (from memory, checked against published descriptions of it).
 */
export const gpx11Schema = {
  namespace: 'http://www.topografix.com/GPX/1/1',
  content: {
    gpx: ['metadata', 'wpt*', 'rte*', 'trk*', 'extensions'],
    trk: ['name', 'cmt', 'desc', 'src', 'link*', 'number', 'type', 'extensions', 'trkseg*'],
    trkseg: ['trkpt*', 'extensions'],
    trkpt: [
      'ele', 'time', 'magvar', 'geoidheight', 'name', 'cmt', 'desc', 'src', 'link*', 'sym', 'type', 'fix', 'sat', 'hdop',
      'vdop', 'pdop', 'ageofdgpsdata', 'dgpsid', 'extensions',
    ],
  },
  attributes: { gpx: ['version', 'creator'], trkpt: ['lat', 'lon'] },
  /** XML Schema types of the leaves, as patterns. */
  leaves: {
    ele: /^[+-]?(\d+(\.\d*)?|\.\d+)$/,
    hdop: /^[+-]?(\d+(\.\d*)?|\.\d+)$/,
    time: /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)?$/,
    sat: /^\d+$/,
    number: /^\d+$/,
  },
} as const; // biome-ignore format: one line a content model

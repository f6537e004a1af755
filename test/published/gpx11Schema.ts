/** `wptType`, of waypoints and of the points of tracks. */
const WAYPOINT = [
  'ele', 'time', 'magvar', 'geoidheight', 'name', 'cmt', 'desc', 'src', 'link*', 'sym', 'type', 'fix', 'sat', 'hdop',
  'vdop', 'pdop', 'ageofdgpsdata', 'dgpsid', 'extensions',
] as const; // biome-ignore format: as below

/**
 * Content models of the GPX 1.1 schema, http://www.topografix.com/GPX/1/1 (gpx.xsd), for the elements that are written: what
 * may stand in each, in order, `*` any number of times. The schema states no licence, so that it is not shipped and written
 * files are not validated against it: this is a structural check against a transcription, compared element by element with
 * the schema's text.
 */
export const gpx11Schema = {
  namespace: 'http://www.topografix.com/GPX/1/1',
  content: {
    gpx: ['metadata', 'wpt*', 'rte*', 'trk*', 'extensions'],
    trk: ['name', 'cmt', 'desc', 'src', 'link*', 'number', 'type', 'extensions', 'trkseg*'],
    trkseg: ['trkpt*', 'extensions'],
    wpt: WAYPOINT,
    trkpt: WAYPOINT,
  },
  attributes: { gpx: ['version', 'creator'], wpt: ['lat', 'lon'], trkpt: ['lat', 'lon'] },
  /** What attributes may hold: `latitudeType` and `longitudeType` are decimals. */
  values: { 'gpx version': /^1\.1$/, 'wpt lat': /^[+-]?(\d+(\.\d*)?|\.\d+)$/, 'wpt lon': /^[+-]?(\d+(\.\d*)?|\.\d+)$/, 'trkpt lat': /^[+-]?(\d+(\.\d*)?|\.\d+)$/, 'trkpt lon': /^[+-]?(\d+(\.\d*)?|\.\d+)$/ },
  /** XML Schema types of the leaves, as patterns. */
  leaves: {
    ele: /^[+-]?(\d+(\.\d*)?|\.\d+)$/,
    hdop: /^[+-]?(\d+(\.\d*)?|\.\d+)$/,
    time: /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)?$/,
    sat: /^\d+$/,
    number: /^\d+$/,
  },
} as const; // biome-ignore format: one line a content model

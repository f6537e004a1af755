/** What a column of a table can hold. */
export type CsvField =
  | 'lon'
  | 'lat'
  | 'eastWest'
  | 'northSouth'
  | 'time'
  | 'date'
  | 'height'
  | 'hdop'
  | 'satellites'
  | 'accuracy'
  | 'segment'
  | 'recording';

/** Names that columns go by, in lower case letters and digits. Common practice, no source. */
const names: Readonly<Record<CsvField, readonly string[]>> = {
  lon: ['longitude', 'lon', 'lng', 'long', 'longitudedeg', 'londeg', 'longitudedegrees'],
  lat: ['latitude', 'lat', 'latitudedeg', 'latdeg', 'latitudedegrees'],
  eastWest: ['ew', 'londir', 'longitudeew'],
  northSouth: ['ns', 'latdir', 'latitudens'],
  time: ['time', 'timestamp', 'datetime', 'utc', 'utctime', 'timeutc', 'dateandtime', 'isotime', 'elapsed'],
  date: ['date', 'utcdate', 'dateutc'],
  height: ['height', 'elevation', 'ele', 'alt', 'altitude', 'elev'],
  hdop: ['hdop'],
  satellites: ['satellites', 'sats', 'sat', 'numsat', 'numsats', 'nsat'],
  accuracy: ['accuracy', 'hacc', 'horizontalaccuracy', 'gpsaccuracy'],
  segment: ['segment', 'seg', 'tracksegment', 'trkseg'],
  recording: ['recording', 'track', 'line', 'string'],
};

/** The unit of a column of segments that are parted by every gap there is. */
export const EVERY_GAP = 'every gap';

/** The columns of a table by what they hold, with the unit a header states; `undefined` when it is no header. */
export function csvHeader(cells: readonly string[]): Map<CsvField, { index: number; unit: string }> | undefined {
  const found = new Map<CsvField, { index: number; unit: string }>();
  cells.forEach((cell, index) => {
    const [, title, unit = ''] = /^([^([]*)(?:[([]([^)\]]*)[)\]])?/.exec(cell) ?? [];
    const plain = (title ?? '').toLowerCase().replace(/[^a-z0-9]/g, '');
    for (const field of Object.keys(names) as CsvField[]) {
      if (names[field].includes(plain) && !found.has(field)) {
        found.set(field, { index, unit: unit.trim().toLowerCase() });
      }
    }
  });
  return found.has('lon') && found.has('lat') ? found : undefined;
}

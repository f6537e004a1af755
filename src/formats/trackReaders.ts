import { csvTracks } from './csvTracks';
import type { ReadFile } from './gatherRecordings';
import { geoJsonTracks } from './geoJsonTracks';
import { gpxTracks } from './gpxTracks';
import { kmlTracks } from './kmlTracks';
import { nmeaTracks } from './nmeaTracks';
import type { Reading } from './ReadOptions';
import { tcxTracks } from './tcxTracks';

/** The formats that hold lines. */
export type LineFormat = 'gpx' | 'tcx' | 'kml' | 'kmz' | 'geojson' | 'nmea' | 'csv';

type TrackReader = (data: string | Uint8Array, reading: Reading) => ReadFile;

/** What reads the tracks of each format that is read at once. */
export const trackReaders: Readonly<Record<LineFormat, TrackReader>> = {
  gpx: gpxTracks,
  tcx: tcxTracks,
  kml: kmlTracks,
  kmz: kmlTracks,
  geojson: geoJsonTracks,
  nmea: nmeaTracks,
  csv: csvTracks,
};

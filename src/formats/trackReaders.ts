import type { RecordingFormat, Steps } from '../model';
import { csvTracks } from './csvTracks';
import { fitTracks } from './fitTracks';
import type { ReadFile } from './gatherRecordings';
import { geoJsonTracks } from './geoJsonTracks';
import { gpxTracks } from './gpxTracks';
import { kmlTracks } from './kmlTracks';
import { nmeaTracks } from './nmeaTracks';
import type { Reading } from './ReadOptions';
import { tcxTracks } from './tcxTracks';

/** The formats that hold lines. */
export type LineFormat = Exclude<RecordingFormat, 'fit'>;

type TrackReader = (data: string | Uint8Array, reading: Reading) => Steps<ReadFile>;

/** What reads the tracks of each format. */
export const trackReaders: Readonly<Record<RecordingFormat, TrackReader>> = {
  gpx: gpxTracks,
  tcx: tcxTracks,
  kml: kmlTracks,
  kmz: kmlTracks,
  geojson: geoJsonTracks,
  nmea: nmeaTracks,
  csv: csvTracks,
  fit: fitTracks,
};

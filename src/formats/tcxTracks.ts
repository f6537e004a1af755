import type { Steps } from '../model';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import { openXml } from './openXml';
import { parseAngle } from './parseAngle';
import { parseFinite } from './parseDecimal';
import { parseNoted } from './parseNoted';
import type { Reading } from './ReadOptions';
import { blankFix, RecordingBuilder } from './RecordingBuilder';
import { type ReadTrack, Tracks } from './Tracks';
import type { TimeReader } from './timeReader';
import { MAX_BYTES } from './unpack';
import type { XmlReader } from './XmlReader';

/** No lap is as long, in metres or seconds; the sum of as many as a file can hold is a number still. */
const MOST_STATED = 1e12;

/** The activities of a training document, or with `lines` its courses too. */
export function* tcxTracks(
  data: string | Uint8Array,
  { readTime, wanted, maxBytes = MAX_BYTES, maxRecordings }: Reading,
): Steps<ReadFile> {
  const { xml, finish } = openXml(
    data,
    'TrainingCenterDatabase',
    'TCX',
    maxBytes,
    wanted === 'recordings' ? 'may be missing' : 'must be there',
  );
  const tracks = new Tracks(maxRecordings);
  const fileIssues = new IssueLog();
  let courses = 0;
  function* addActivity(): Steps<void> {
    tracks.add(yield* readActivity(xml, tracks.count + 1, readTime));
  }
  const visit = (child: string): Steps<void> | undefined => {
    if (child === 'Activity' || (child === 'Course' && wanted === 'lines')) return addActivity();
    if (child !== 'Course') return xml.eachChildInSteps(visit);
    courses++;
    fileIssues.note('not-recorded', () => xml.place());
    return undefined;
  };
  yield* xml.eachChildInSteps(visit);
  finish(fileIssues, tracks.whole.length);
  return { tracks, fileIssues, ...(courses > 0 ? { hint: 'readLines reads its courses' } : {}) };
}

/** Several tracks within a lap are pauses; a new lap is none. */
function* readActivity(xml: XmlReader, number: number, readTime: TimeReader): Steps<ReadTrack> {
  let lap = 0;
  let track = 0;
  let point = 0;
  const place = () => `activity ${number}, lap ${lap}, track ${track}, point ${point}`;
  const builder = new RecordingBuilder(place);
  const source: Record<string, unknown> & { format: 'tcx' } = { format: 'tcx' };
  const attributes: Record<string, string | number> = {};
  const sport = xml.attribute('Sport');
  if (sport !== undefined) attributes.Sport = sport;
  const readTrack = () => {
    if (++track > 1) builder.breakLine();
    point = 0;
    return xml.eachChildInSteps((child) => {
      if (child !== 'Trackpoint') return undefined;
      point++;
      readPoint(xml, builder, place, readTime);
      return undefined;
    });
  };
  yield* xml.eachChildInSteps((child) => {
    switch (child) {
      case 'Id':
      case 'Name':
      case 'Notes':
        attributes[child] = xml.content();
        break;
      case 'Creator':
        xml.eachChild((inner) => {
          if (inner === 'Name') source.creator = xml.content();
        });
        break;
      case 'Track':
        return readTrack();
      case 'Lap':
        lap++;
        track = 0;
        return xml.eachChildInSteps((inner) => {
          if (inner === 'Track') return readTrack();
          // what the receiver itself states of each lap: not what its points measure
          if (inner === 'TotalTimeSeconds' || inner === 'DistanceMeters') {
            const value = parseFinite(xml.content());
            if (Math.abs(value) <= MOST_STATED) attributes[inner] = ((attributes[inner] as number) ?? 0) + value;
          }
          return undefined;
        });
    }
    return undefined;
  });
  // the Id of an activity is the time it began, which a name would carry into what is published
  const name = attributes.Name as string | undefined;
  return { builder, source, attributes, name };
}

function readPoint(xml: XmlReader, builder: RecordingBuilder, place: () => string, readTime: TimeReader): void {
  const fix = blankFix();
  let lat = '';
  let lon = '';
  xml.eachChild((child) => {
    if (child === 'Time') fix.time = readTime(xml.content(), builder.issues, place);
    else if (child === 'Position') {
      xml.eachChild((inner) => {
        if (inner === 'LatitudeDegrees') lat = xml.content().trim();
        else if (inner === 'LongitudeDegrees') lon = xml.content().trim();
      });
    } else if (child === 'AltitudeMeters') {
      fix.height = parseNoted(xml.content(), 'unreadable-height', builder.issues, place);
    }
  });
  if (xml.cutOff) return; // a point that is cut off may be missing half of what it says
  if (lat === '' || lon === '') builder.drop('missing-position');
  else {
    fix.lon = parseAngle(lon, 'longitude', place);
    fix.lat = parseAngle(lat, 'latitude', place);
    builder.add(fix);
  }
}

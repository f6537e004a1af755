import { csvParse } from 'd3-dsv';
import {
  type Recording,
  readCsv,
  readFit,
  readGeoJson,
  readKml,
  readNmea,
  readTcx,
  writeCsv,
  writeGeoJson,
  writeKml,
} from 'datumline';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import FitParser from 'fit-file-parser';
import { FitFile, recordFields } from '../test/support/FitFile';
import { seeded } from '../test/support/randomLine';
import { sentence } from '../test/support/sampleFiles';
import type { Bench, BenchRow } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

const BEGIN = 1.7e12;

function wander(points: number): Recording {
  const random = seeded(1);
  const [lon, lat, time, height] = Array.from({ length: 4 }, () => new Float64Array(points));
  const at = { lon: 5.5, lat: 60.5, height: 10 };
  for (let i = 0; i < points; i++) {
    lon[i] = at.lon += (random() - 0.3) * 4e-5;
    lat[i] = at.lat += (random() - 0.5) * 2e-5;
    height[i] = at.height += random() - 0.5;
    time[i] = BEGIN + i * 1000;
  }
  const gapBefore = new Uint8Array(points);
  gapBefore[0] = 1;
  return { name: 'bench', lon, lat, time, height, gapBefore, issues: [], source: { format: 'gpx' }, attributes: {} };
}

const iso = (time: number) => new Date(time).toISOString();

function makeTcx({ lon, lat, time, height }: Recording): string {
  const points = Array.from(
    lon,
    (value, i) =>
      `<Trackpoint><Time>${iso(time![i])}</Time><Position><LatitudeDegrees>${lat[i]}</LatitudeDegrees><LongitudeDegrees>${value}</LongitudeDegrees></Position><AltitudeMeters>${height![i]}</AltitudeMeters><HeartRateBpm><Value>120</Value></HeartRateBpm></Trackpoint>`,
  );
  return `<TrainingCenterDatabase><Activities><Activity Sport="Other"><Lap><Track>${points.join('\n')}</Track></Lap></Activity></Activities></TrainingCenterDatabase>`;
}

function makeNmea({ lon, lat, time, height }: Recording): string {
  const angle = (degrees: number, digits: number) => {
    const whole = Math.floor(degrees);
    return String(whole).padStart(digits, '0') + ((degrees - whole) * 60).toFixed(5).padStart(8, '0');
  };
  return Array.from(lon, (value, i) => {
    const place = `${angle(lat[i], 2)},N,${angle(value, 3)},E`;
    const text = iso(time![i]);
    const clock = text.slice(11, 19).replaceAll(':', '');
    const date = text.slice(8, 10) + text.slice(5, 7) + text.slice(2, 4);
    return `${sentence(`GPRMC,${clock},A,${place},4.0,090.0,${date},,,A`)}\r\n${sentence(`GPGGA,${clock},${place},1,09,0.8,${height![i].toFixed(1)},M,46.9,M,,`)}`;
  }).join('\r\n');
}

function makeFit({ lon, lat, time, height }: Recording): Uint8Array {
  const file = new FitFile();
  for (let i = 0; i < lon.length; i++) file.message(20, recordFields(time![i] / 1000, lat[i], lon[i], height![i]));
  return file.bytes();
}

/** Milliseconds in which 50 000 points should be read. */
const goals: Readonly<Record<string, number>> = { CSV: 120, 'NMEA 0183': 200, GeoJSON: 80 };

export const run: Bench = async ({ smoke }) => {
  const points = smoke ? 1_000 : 50_000;
  const rounds = smoke ? 1 : 5;
  const recording = wander(points);
  const parser = new XMLParser({ ignoreAttributes: false, removeNSPrefix: true, parseTagValue: false });
  const objects = (text: string) =>
    XMLValidator.validate(text) === true ? Object.keys(parser.parse(text)).length : Number.NaN;
  const rows: BenchRow[] = [];
  const add = (format: string, size: number, times: { ours: number; peer?: number }, whole: number, peer = '') => {
    rows.push({
      what: `read ${(size / 1e6).toFixed(1)} MB of ${format}, ${points} points`,
      ...(format in goals ? promised(times.ours, goals[format]) : { ours: showTime(times.ours) }),
      error: whole === points ? 'every point' : 'POINTS LOST',
      ...(times.peer === undefined ? {} : { peers: [{ name: peer, time: showTime(times.peer) }] }),
    });
  };
  const xml = 'fast-xml-parser, validated, objects only';
  const tcx = makeTcx(recording);
  const timesTcx = medianTime({ ours: () => readTcx(tcx)[0].lon.length, peer: () => objects(tcx) }, rounds);
  add('TCX', tcx.length, timesTcx, readTcx(tcx)[0].lon.length, xml);
  const kml = writeKml(recording);
  const timesKml = medianTime({ ours: () => readKml(kml)[0].lon.length, peer: () => objects(kml) }, rounds);
  add('KML', kml.length, timesKml, readKml(kml)[0].lon.length, xml);
  const geojson = writeGeoJson(recording);
  const parse = () => Object.keys(JSON.parse(geojson)).length;
  const timesJson = medianTime({ ours: () => readGeoJson(geojson)[0].lon.length, peer: parse }, rounds);
  add('GeoJSON', geojson.length, timesJson, readGeoJson(geojson)[0].lon.length, 'JSON.parse, objects only');
  const csv = writeCsv(recording);
  const timesCsv = medianTime({ ours: () => readCsv(csv)[0].lon.length, peer: () => csvParse(csv).length }, rounds);
  add('CSV', csv.length, timesCsv, readCsv(csv)[0].lon.length, 'd3-dsv, cells as text only');
  const nmea = makeNmea(recording);
  const timesNmea = medianTime({ ours: () => readNmea(nmea)[0].lon.length }, rounds);
  add('NMEA 0183', nmea.length, timesNmea, readNmea(nmea)[0].lon.length);
  const fit = makeFit(recording);
  const timesFit = { ours: [] as number[], peer: [] as number[] };
  for (let round = 0; round < rounds; round++) {
    const begun = performance.now();
    await readFit(fit);
    const between = performance.now();
    await new FitParser({ force: true, mode: 'list' }).parseAsync(fit.slice().buffer as ArrayBuffer);
    timesFit.ours.push(between - begun);
    timesFit.peer.push(performance.now() - between);
  }
  const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1];
  const both = { ours: median(timesFit.ours), peer: median(timesFit.peer) };
  add('FIT', fit.length, both, (await readFit(fit))[0].lon.length, 'fit-file-parser, every message decoded');
  return rows;
};

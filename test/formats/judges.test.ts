import { readFileSync } from 'node:fs';
import { gpx as gpxToGeoJson, kml as kmlToGeoJson, tcx as tcxToGeoJson } from '@tmcw/togeojson';
import { type Recording, readGpx, readKml, readTcx } from 'datumline';
import type { Feature, Position } from 'geojson';
import { JSDOM } from 'jsdom';
import { expect, test } from 'vitest';
import { segmentsOf } from '../../src/formats/segmentsOf';
import { sampleFiles } from '../support/sampleFiles';

const { DOMParser } = new JSDOM('').window;
const dom = (text: string) => new DOMParser().parseFromString(text, 'application/xml');
const real = readFileSync(
  new URL('../../node_modules/gpx-parse/tests/integration/data/route-1.1.gpx', import.meta.url),
  'utf8',
);
const text = (key: 'gpx' | 'tcx' | 'kml') => new TextDecoder().decode(sampleFiles[key]);

/** Positions of a recording as GeoJSON has them, a line for each segment. */
const lines = ({ lon, lat, height, gapBefore }: Recording): Position[][] =>
  segmentsOf({ gapBefore }).map(({ from, to }) =>
    Array.from({ length: to - from }, (_, k) => [lon[from + k], lat[from + k], ...(height ? [height[from + k]] : [])]),
  );

// @tmcw/togeojson, on files without missing times or single points, where it is known to go astray
test.each<[string, Recording[], Feature[]]>([
  ['the sample GPX', readGpx(text('gpx')), gpxToGeoJson(dom(text('gpx'))).features as Feature[]],
  ['the real GPX', readGpx(real), gpxToGeoJson(dom(real)).features as Feature[]],
  ['the sample TCX', readTcx(text('tcx')), tcxToGeoJson(dom(text('tcx'))).features as Feature[]],
  [
    'the sample KML',
    readKml(text('kml')),
    kmlToGeoJson(dom(text('kml').replace('xmlns:k=', 'xmlns:gx=').replaceAll('k:', 'gx:').replace('urn:k', 'urn:gx')))
      .features as Feature[],
  ],
])('%s: positions, heights, segments and times as a general converter has them', (_, recordings, features) => {
  const theirs = features.flatMap(({ geometry, properties }) => {
    const parts = geometry.type === 'GeometryCollection' ? geometry.geometries : [geometry];
    const lines = parts.flatMap((part) =>
      part.type === 'LineString' ? [part.coordinates] : part.type === 'MultiLineString' ? part.coordinates : [],
    );
    return lines.length > 0 ? [{ parts: lines, properties }] : [];
  });
  expect(theirs.length).toBe(recordings.length);
  theirs.forEach(({ parts, properties }, i) => {
    const times = (properties?.coordinateProperties?.times ?? []).flat().map((time: string) => Date.parse(time));
    // what the converter joins, the reader may part where time stood still: only the positions in order are compared then
    expect(lines(recordings[i]).flat()).toEqual(parts.flat());
    if (parts.length > 1) expect(lines(recordings[i])).toEqual(parts);
    expect(Array.from(recordings[i].time ?? [])).toEqual(times);
  });
});

test('the real recording: 7 745 fixes, all times, all heights, none told of', () => {
  const [recording] = readGpx(real);
  expect(recording.lon.length).toBe(7745);
  for (const column of [recording.time!, recording.height!]) expect(column.every(Number.isFinite)).toBe(true);
  expect(recording.issues.filter(({ reason }) => !['time-gap', 'frozen-position'].includes(reason))).toEqual([]);
});

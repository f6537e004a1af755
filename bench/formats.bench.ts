import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gpx as gpxToGeoJson } from '@tmcw/togeojson';
import { readGpx, writeGpx } from 'datumline';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { JSDOM } from 'jsdom';
import { XmlReader } from '../src/formats/XmlReader';
import { malformedXml } from '../test/published/malformedXml';
import { seeded } from '../test/support/randomLine';
import type { Bench, BenchRow } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';
import { smallestFormats, smallestPoints } from './support/smallestPoints';

/** A GPX file as receivers write them, about 200 bytes a point: a wandering line with heights, times and extensions. */
function makeGpx(points: number): Uint8Array {
  const random = seeded(1);
  const lines: string[] = [];
  let [lon, lat, height] = [5, 60, 10];
  for (let i = 0; i < points; i++) {
    lon += (random() - 0.3) * 4e-5;
    lat += (random() - 0.5) * 2e-5;
    height += random() - 0.5;
    lines.push(
      `   <trkpt lat="${lat.toFixed(9)}" lon="${lon.toFixed(9)}">\n    <ele>${height.toFixed(3)}</ele>\n` +
        `    <time>${new Date(1.7e12 + i * 1000).toISOString()}</time>\n    <extensions><x:b>12</x:b></extensions>\n   </trkpt>\n`,
    );
  }
  return new TextEncoder().encode(
    `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="bench" xmlns="http://www.topografix.com/GPX/1/1" xmlns:x="urn:x">\n <trk>\n  <trkseg>\n${lines.join('')}  </trkseg>\n </trk>\n</gpx>\n`,
  );
}

/** By how many times the document the memory of a process that reads it rises at the highest, garbage included. */
function memoryOf(document: Uint8Array, reader: 'ours' | 'any' | 'fast-xml-parser'): number {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-bench-'));
  try {
    const file = join(folder, 'bench.gpx');
    writeFileSync(file, document);
    const script = fileURLToPath(new URL('support/peakMemory.ts', import.meta.url));
    const said = execFileSync(process.execPath, ['--import', 'tsx', script, file, reader], { encoding: 'utf8' });
    return Number(said) / document.length;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** How many of the malformed documents are taken. */
function taken(read: (document: string) => unknown): number {
  return malformedXml.filter(([, document]) => {
    try {
      read(document);
      return true;
    } catch {
      return false;
    }
  }).length;
}

/** Formats that are read without holding the whole of what was parsed; of the others a shorter document is taken. */
const lean = new Set(['GPX', 'TCX', 'KML', 'KML tracks', 'CSV']);

/** Memory for documents whose points are as small as their format allows: the most that any document of that size takes. */
function memoryRows(smoke: boolean): BenchRow[] {
  const bytes = smoke ? 2e5 : 16e6;
  return smallestFormats.map((format): BenchRow => {
    const times = memoryOf(smallestPoints(format, bytes), 'any');
    const what = `memory at its highest while reading ${(bytes / 1e6).toFixed(1)} MB of ${format}, smallest points`;
    const ours = `${times.toFixed(1)} × the document`;
    return lean.has(format) ? { what, ours, promise: '≤ 12 × the document', held: times <= 12 } : { what, ours };
  });
}

/** XML with so many attributes in one element. */
const attributes = (count: number) =>
  `<gpx><trk ${Array.from({ length: count }, (_, i) => `a${i}=""`).join(' ')}><trkseg><trkpt lat="1" lon="1"/><trkpt lat="1" lon="2"/></trkseg></trk></gpx>`;

function readThrough(document: string): void {
  const xml = new XmlReader(document);
  while (xml.next() !== 'end');
}

export const run: Bench = ({ smoke }) => {
  const points = smoke ? 2_000 : 100_000;
  const bytes = makeGpx(points);
  const size = bytes.length;
  const text = new TextDecoder().decode(bytes);
  const parser = new XMLParser({
    ignoreAttributes: false,
    removeNSPrefix: true,
    parseTagValue: false,
    processEntities: false,
  });
  // a DOM of the whole takes minutes and gigabytes: the converter is timed on a tenth
  const tenth = new TextDecoder().decode(makeGpx(points / 10));
  const { DOMParser } = new JSDOM('').window;
  const times = medianTime(
    {
      ours: () => readGpx(bytes)[0].lon.length,
      unchecked: () => Object.keys(parser.parse(text)).length,
      parser: () => (XMLValidator.validate(text) === true ? Object.keys(parser.parse(text)).length : 0),
    },
    smoke ? 1 : 5,
  );
  const converter = medianTime(
    { converter: () => gpxToGeoJson(new DOMParser().parseFromString(tenth, 'application/xml')).features.length },
    1,
  ).converter;
  const [recording] = readGpx(bytes);
  const whole = recording.lon.length === points && recording.time!.every(Number.isFinite);
  const growth = { ours: memoryOf(bytes, 'ours'), parser: memoryOf(bytes, 'fast-xml-parser') };
  const malformed = { ours: taken(readThrough), parser: taken((document) => parser.parse(document)) };
  const all = malformedXml.length;
  const writing = medianTime({ write: () => writeGpx(recording).length }, smoke ? 1 : 5).write;
  const count = smoke ? 400 : 40_000;
  const [many, half] = [attributes(count), attributes(count / 2)];
  const attributed = medianTime({ all: () => readGpx(many).length, half: () => readGpx(half).length }, smoke ? 1 : 5);
  const what = `${(size / 1e6).toFixed(1)} MB of GPX, ${points} points`;
  return [
    {
      what: `read ${what}`,
      ...promised(times.ours, 400),
      error: whole ? 'every point' : 'POINTS LOST',
      peers: [
        { name: 'fast-xml-parser, validated, objects only', time: showTime(times.parser) },
        { name: 'fast-xml-parser, objects only', time: showTime(times.unchecked) },
        { name: 'DOM and togeojson, a tenth of it', time: showTime(converter) },
      ],
    },
    {
      what: `memory at its highest while reading ${what}`,
      ours: `${growth.ours.toFixed(1)} × the file`,
      promise: '≤ 3 × the file',
      held: growth.ours <= 3,
      peers: [{ name: 'fast-xml-parser, objects only', time: `${growth.parser.toFixed(1)} × the file` }],
    },
    {
      what: 'malformed XML documents taken, one or more for each production',
      ours: `${malformed.ours} of ${all}`,
      promise: 'none',
      held: malformed.ours === 0,
      peers: [{ name: 'fast-xml-parser', time: `${malformed.parser} of ${all}` }],
      says: {
        marker: 'xml',
        text:
          `XML is read by \`saxes\`, which takes ${malformed.ours || 'none'} of ${all} malformed documents; ${what}, ` +
          `takes ${showTime(times.ours)} and ${growth.ours.toFixed(1)} × its size in memory. \`fast-xml-parser\`, which ` +
          `writes XML here and judges in the tests, takes ${malformed.parser} of the ${all} as a reader, and needs ` +
          `${showTime(times.unchecked)} (${showTime(times.parser)} with its validator) and ` +
          `${growth.parser.toFixed(1)} × the size for the same file.`,
      },
    },
    { what: `write ${points} points as GPX`, ...promised(writing, 600) },
    {
      what: `read one element of ${count} attributes`,
      ...promised(attributed.all, 500),
      peers: [{ name: 'half as many', time: showTime(attributed.half) }],
    },
    ...memoryRows(smoke),
  ];
};

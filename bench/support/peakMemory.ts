import { existsSync, readFileSync } from 'node:fs';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { InputError, readGpx, readRecordings } from '../../src/subpaths/formats';

// Started in a process of its own: prints by how many bytes reading the file named raises the most memory ever held.
const [file, reader] = process.argv.slice(2);
const parser = new XMLParser({ ignoreAttributes: false, removeNSPrefix: true, parseTagValue: false });
const readers: Record<string, (bytes: Uint8Array) => number | Promise<number>> = {
  ours: (bytes) => readGpx(bytes).length,
  any: async (bytes) => (await readRecordings(bytes)).length,
  'fast-xml-parser': (bytes) => {
    const text = new TextDecoder().decode(bytes);
    return XMLValidator.validate(text) === true ? Object.keys(parser.parse(text)).length : 0;
  },
};
const read = readers[reader];
const bytes = readFileSync(file);
// a small document first, so that the code is not counted
await read(
  new TextEncoder().encode(
    '<gpx><trk><trkseg><trkpt lat="60" lon="5"/><trkpt lat="60" lon="5.1"/></trkseg></trk></gpx>',
  ),
);
const before = process.memoryUsage().rss;
try {
  if ((await read(bytes)) === 0) throw new Error('nothing was read');
} catch (error) {
  // a document may hold more than is read: what that takes counts all the same
  if (!(error instanceof InputError && error.reason === 'too-large')) throw error;
}
// Linux keeps in maxRSS what the process held that started this one: where it tells, the peak of this program alone
const status = existsSync('/proc/self/status') ? readFileSync('/proc/self/status', 'utf8') : '';
const [, own] = /VmHWM:\s*(\d+) kB/.exec(status) ?? [];
console.log(Math.max(1024 * (own ? Number(own) : process.resourceUsage().maxRSS) - before, 0));

import { readFileSync } from 'node:fs';
import { readGpx } from '../../src/subpaths/formats';

// Started in a process of its own: prints by how many bytes reading the file named raises the most memory ever held.
const bytes = readFileSync(process.argv[2]);
// a small document first, so that the code is not counted
readGpx('<gpx><trk><trkseg><trkpt lat="60" lon="5"/><trkpt lat="60" lon="5.1"/></trkseg></trk></gpx>');
const before = process.memoryUsage().rss;
if (readGpx(bytes).length === 0) throw new Error('nothing was read');
console.log(Math.max(process.resourceUsage().maxRSS * 1024 - before, 0));

import type { Bench, BenchRow } from './support/Bench';
import { memoryOf } from './support/memoryOf';
import { smallestFormats, smallestPoints } from './support/smallestPoints';

/** Formats that are parsed as a whole before anything is read: a shorter document of them is taken, and no more is promised. */
const parsedWhole = (format: string) => format.startsWith('GeoJSON');

/** Memory for documents whose points, or what stands for them, are as small as their format allows: the most that any takes. */
export const run: Bench = ({ smoke }) => {
  const bytes = smoke ? 2e5 : 16e6;
  const size = `${(bytes / 1e6).toFixed(1)} MB`;
  const lines: string[] = [];
  const rows = smallestFormats.map((format): BenchRow => {
    const times = memoryOf(smallestPoints(format, bytes), 'any');
    lines.push(`| ${format} | ${times.toFixed(1)} × |`);
    const what = `memory at its highest while reading ${size} of ${format}, smallest there are`;
    const ours = `${times.toFixed(1)} × the document`;
    return parsedWhole(format) ? { what, ours } : { what, ours, promise: '≤ 12 × the document', held: times <= 12 };
  });
  const table = [
    '| document of the smallest there are | memory risen at its highest |',
    '| --- | ---: |',
    ...lines,
  ].join('\n');
  rows[0] = { ...rows[0], says: { marker: 'memory', text: table } };
  return rows;
};

import { extname } from 'node:path';
import { max } from 'd3-array';
import { writeGeoJson, writeGpx, writeKml } from '../formats';
import type { Route } from '../model';
import type { CommandArguments } from './CommandArguments';
import { wrongUsage } from './CommandError';
import { print } from './print';
import { readRoute } from './readRoute';
import { textTable } from './textTable';
import { writeWhole } from './writeWhole';

/** What can be written, by the ending of the file's name. */
const writers: Readonly<Record<string, (route: Route) => string>> = {
  '.json': (route) => `${JSON.stringify(route.recipe, null, 2)}\n`,
  '.geojson': (route) => writeGeoJson(route),
  '.gpx': (route) => writeGpx(route),
  '.kml': (route) => writeKml(route),
};

/** `datumline route FILE`: what an author looks at before the first ride. */
export async function routeCommand({ files, out }: CommandArguments): Promise<void> {
  if (files.length !== 1) throw wrongUsage(`route takes one FILE, not ${files.length}`, 'route');
  const write = out === undefined ? undefined : writers[extname(out).toLowerCase()];
  if (out !== undefined && !write) {
    throw wrongUsage(`--out must end in ${Object.keys(writers).join(', ')}, not "${extname(out)}"`, 'route');
  }
  const route = await readRoute(files[0]);
  if (out !== undefined && write) writeWhole(out, write(route));
  print(describeRoute(route, files[0]));
  if (out !== undefined) print(`\nwritten: ${out}\n`);
}

function describeRoute(route: Route, file: string): string {
  const metres = (value: number) => value.toFixed(1);
  const stated = route.lateral95.filter((value) => !Number.isNaN(value));
  const parts = [
    `${route.name ?? file}: ${metres(route.length)} m, ${route.lon.length} vertices`,
    stated.length === 0
      ? 'lateral uncertainty (95 %): not stated; verdicts will take the line as exact'
      : `lateral uncertainty (95 %): up to ${metres(max(stated)!)} m${stated.length < route.lon.length ? ', not stated everywhere' : ''}`,
  ];
  if (route.sections.length > 0) {
    const rows = route.sections.map((section) => [
      section.name,
      metres(section.from),
      metres(section.to),
      metres(section.to - section.from),
      section.halfWidth === undefined ? '' : metres(section.halfWidth),
      section.environment ?? '',
    ]);
    parts.push(
      '',
      textTable(['section', 'from', 'to', 'length', 'half width', 'environment'], rows, [
        'left',
        'right',
        'right',
        'right',
        'right',
        'left',
      ]),
    );
  }
  if (route.marks.length > 0) {
    const rows = route.marks.map((mark) => [mark.name, metres(mark.alongTrack)]);
    parts.push('', textTable(['mark', 'at'], rows, ['left', 'right']));
  }
  if (route.warnings.length > 0) {
    parts.push(
      '',
      'Warnings:',
      ...route.warnings.map(({ from, to, message }) => `- ${metres(from)}–${metres(to)} m: ${message}`),
    );
  }
  return `${parts.join('\n')}\n`;
}

import { extname } from 'node:path';
import { max } from 'd3-array';
import type { Route } from '../model';
import { routeToGeoJson } from '../route';
import type { CommandArguments } from './CommandArguments';
import { wrongUsage } from './CommandError';
import { print } from './print';
import { readBytes } from './readBytes';
import { readRoute } from './readRoute';
import { tell } from './tell';
import { textTable } from './textTable';
import { writeWhole } from './writeWhole';

/** What can be written, by the ending of the file's name. */
const writers: Readonly<Record<string, (route: Route) => string | Promise<string>>> = {
  '.json': (route) => `${JSON.stringify(route.recipe, null, 2)}\n`,
  '.geojson': (route) => `${JSON.stringify(routeToGeoJson(route))}\n`,
  '.gpx': async (route) => (await import('./routeDocument')).routeDocument(route, 'gpx'),
  '.kml': async (route) => (await import('./routeDocument')).routeDocument(route, 'kml'),
};

/** `datumline route FILE`, and `datumline route --draft RECORDING... --out FILE`: what an author looks at before the first ride. */
export async function routeCommand({ files, out, draft }: CommandArguments): Promise<void> {
  const drafting = draft === 'from recordings';
  if (drafting && (files.length === 0 || out === undefined))
    throw wrongUsage('route --draft takes RECORDINGs and --out FILE', 'route');
  if (!drafting && files.length !== 1) throw wrongUsage(`route takes one FILE, not ${files.length}`, 'route');
  const write = out === undefined ? undefined : writers[extname(out).toLowerCase()];
  if (out !== undefined && !write) {
    throw wrongUsage(`--out must end in ${Object.keys(writers).join(', ')}, not "${extname(out)}"`, 'route');
  }
  const route = drafting
    ? await (await import('./readDraft')).readDraft(files)
    : await readRoute(files[0], await readBytes(files[0]));
  if (out !== undefined && write) {
    writeWhole(out, await write(route));
    const lost = ['.gpx', '.kml'].includes(extname(out).toLowerCase()) ? leftOutOf(route) : '';
    if (lost !== '')
      tell(
        `${out}: it holds the line, its marks and the edges of the corridor, but not ${lost}; .json and .geojson do`,
      );
  }
  print(describeRoute(route, files[0]));
  if (drafting)
    print(
      `\nA draft to be corrected in a map editor. Until it is, nothing is claimed of the recordings it was drafted from.\n`,
    );
  if (out !== undefined) print(`\nwritten: ${out}\n`);
}

/** What of a route a GPX or KML file doesn't hold, in words; empty where nothing is lost. */
function leftOutOf({ sections, marks, laps, lateral95, provenance }: Route): string {
  const parts = [
    ...(sections.length > 0 ? ['its sections other than in words'] : []),
    ...(marks.some(({ time }) => time !== undefined) ? ['when its marks were passed'] : []),
    ...(laps.length > 0 ? ['the laps'] : []),
    ...(lateral95.every(Number.isNaN) ? [] : ['how well it is known']),
    ...(provenance.length > 0 ? ['its sources'] : []),
  ];
  return [parts.slice(0, -1).join(', '), parts.at(-1)].filter(Boolean).join(' and ');
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
      ...route.warnings.map(({ from, to, message }) =>
        from === 0 && to === route.length ? `- ${message}` : `- ${metres(from)}–${metres(to)} m: ${message}`,
      ),
    );
  }
  return `${parts.join('\n')}\n`;
}

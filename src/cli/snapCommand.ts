import { extname } from 'node:path';
import type { Recording, Route, Snapped } from '../model';
import { snap } from '../snap';
import { answerLines } from './answerLines';
import type { CommandArguments } from './CommandArguments';
import { cannot, wrongUsage } from './CommandError';
import { doubtRoute } from './doubtRoute';
import { interruptible } from './interruptible';
import { print } from './print';
import { readBytes } from './readBytes';
import { readRoute } from './readRoute';
import { readTracks } from './readTracks';
import { snappedMap } from './snappedMap';
import { snappedTable } from './snappedTable';
import { tell } from './tell';
import { tellCutOff } from './tellCutOff';
import { writeWhole } from './writeWhole';

/** What can be written, by the ending of the file's name. */
const writers: Readonly<
  Record<string, (route: Route, recording: Recording, snapped: Snapped, times: CommandArguments['times']) => string>
> = {
  '.csv': snappedTable,
  '.geojson': snappedMap,
};

/** `datumline snap ROUTE RECORDING`: every fix with its place on the route. */
export async function snapCommand(given: CommandArguments): Promise<'all' | 'not all'> {
  const { files, out, zone, ndjson, times } = given;
  if (ndjson === 'each line') {
    if (files.length > 0) throw wrongUsage('snap --ndjson takes no files', 'snap');
    return answerLines('snap', given);
  }
  if (files.length !== 2) throw wrongUsage(`snap takes one ROUTE and one RECORDING, not ${files.length} files`, 'snap');
  const ending = out === undefined ? '.csv' : extname(out).toLowerCase();
  if (!Object.hasOwn(writers, ending)) {
    throw wrongUsage(`--out must end in ${Object.keys(writers).join(', ')}, not "${ending}"`, 'snap');
  }
  const [routeFile, file] = files;
  // once: it may be a pipe
  const data = await readBytes(routeFile);
  const route = await readRoute(routeFile, data);
  await doubtRoute(routeFile, data);
  const recordings = await readTracks({ file, zone });
  if (recordings.length !== 1) {
    const names = recordings.map(({ name }) => `"${name}"`).join(', ');
    throw cannot(file, `expected one recording, found ${recordings.length}: ${names}`);
  }
  const [recording] = recordings;
  const ended = tellCutOff(file, recordings) ? 'not all' : 'all';
  for (const { reason, message } of recording.issues) if (reason !== 'cut-off') tell(`${file}: ${message}`);
  const snapped = await interruptible(() => snap(route, recording));
  for (const { message } of snapped.issues) tell(`${file}: ${message}`);
  for (const { firstFix, lastFix, message } of snapped.ambiguous) {
    tell(`${file}: fixes ${firstFix} to ${lastFix}: ${message}`);
  }
  const table = writers[ending](route, recording, snapped, times);
  if (out === undefined) {
    // what is passed on stays as it is
    if (process.stdout.isTTY) print(table);
    else process.stdout.write(table);
    return ended;
  }
  writeWhole(out, table);
  print(`written: ${out}\n`);
  return ended;
}

import { existsSync, readdirSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import type { Recording } from '../model';
import { checkTestFile, type FoundRecording, guessTest, type TestFile, type TestRecording } from '../runs';
import type { CommandArguments } from './CommandArguments';
import { CommandError, cannot, wrongUsage } from './CommandError';
import { explain } from './explain';
import { print } from './print';
import { readRoute } from './readRoute';
import { readTracks } from './readTracks';
import { tell } from './tell';
import { writeWhole } from './writeWhole';

/** `datumline test FOLDER --route FILE`: a test file to look through, guessed from what lies in a folder. */
export async function testCommand(given: CommandArguments): Promise<'all' | 'not all'> {
  const { files, route, zone, overwrite } = given;
  if (files.length !== 1) throw wrongUsage(`test takes one FOLDER, not ${files.length}`, 'test');
  if (route === undefined) throw wrongUsage('test needs --route FILE, the line travelled', 'test');
  const [folder] = files;
  const out = given.out ?? join(folder, 'test.json');
  if (existsSync(out) && overwrite !== 'allowed') {
    throw cannot(out, 'is there already; give another --out, or --overwrite');
  }
  await readRoute(route);
  const beside = (file: string) =>
    relative(dirname(resolve(out)), resolve(file))
      .split(sep)
      .join('/');
  const found: FoundRecording[] = [];
  const zoned = new Set<string>();
  let left = 0;
  const leaveOut = (path: string, error: unknown) => {
    left++;
    tell(`left out: ${explain(error, path).message}`);
  };
  for (const file of filesIn(folder, leaveOut)) {
    const path = join(folder, file);
    if ([route, out].some((other) => resolve(other) === resolve(path))) continue;
    try {
      const { recordings, zoneNeeded } = await readWithZone(path, zone);
      if (zoneNeeded) zoned.add(file);
      for (const recording of recordings) found.push(describe(file, recording, recordings.length > 1));
    } catch (error) {
      leaveOut(path, error);
    }
  }
  if (found.length === 0) throw new CommandError(`${folder}: no recording in it could be read`, 1);
  const { runs, sentences } = guessTest(found);
  const test: TestFile = {
    version: 1,
    name: basename(resolve(folder)),
    route: beside(route),
    runs: runs.map(({ name, recordings }) => ({
      name,
      recordings: recordings.map(
        ({ file, track, receiver }): TestRecording => ({
          file: beside(join(folder, file)),
          receiver,
          ...(track === undefined ? {} : { track }),
          ...(zoned.has(file) ? { zone } : {}),
        }),
      ),
    })),
  };
  checkTestFile(test);
  writeWhole(out, `${JSON.stringify(test, null, 2)}\n`);
  print(
    `Guessed; look it through before you rely on it:\n${sentences.map((one) => `- ${one}\n`).join('')}\nwritten: ${out}\n`,
  );
  return left > 0 ? 'not all' : 'all';
}

/** The files of a folder and of those in it, by their path within; hidden ones aside. */
function filesIn(folder: string, leaveOut: (path: string, error: unknown) => void): string[] {
  const names = (within: string) =>
    readdirSync(join(folder, within))
      .filter((name) => !name.startsWith('.'))
      .sort();
  const isFolder = (file: string) => {
    try {
      return statSync(join(folder, file)).isDirectory();
    } catch {
      // why it can't be read is told of it as of a file
      return false;
    }
  };
  const innerNames = (name: string) => {
    try {
      return names(name)
        .map((inner) => join(name, inner))
        .filter((file) => !isFolder(file));
    } catch (error) {
      leaveOut(join(folder, name), error);
      return [];
    }
  };
  try {
    return names('').flatMap((name) => (isFolder(name) ? innerNames(name) : [name]));
  } catch (error) {
    throw explain(error, folder);
  }
}

/** The recordings of a file, in the zone where its times state none. */
async function readWithZone(file: string, zone: string | undefined) {
  const bare = await readTracks({ file }).catch((error: unknown) => error);
  if (Array.isArray(bare)) return { recordings: bare as Recording[], zoneNeeded: false };
  if (zone === undefined) throw bare;
  return { recordings: await readTracks({ file, zone }), zoneNeeded: true };
}

function describe(file: string, { name, time }: Recording, several: boolean): FoundRecording {
  const known = time?.filter(Number.isFinite) ?? new Float64Array();
  const bounds = known.reduce(
    ([low, high], value) => [Math.min(low, value), Math.max(high, value)],
    [Infinity, -Infinity],
  );
  return {
    file: file.split(sep).join('/'),
    name,
    ...(several ? { track: name } : {}),
    ...(known.length > 0 ? { span: [bounds[0], bounds[1]] } : {}),
  };
}

import { lstatSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { cannot } from './CommandError';
import { explain } from './explain';

/** Stands in a folder while files are written into it: they are made in here first, and what they replace is kept in here. */
const WRITING = '.datumline-writing';

/**
 * Writes the files of one run into a folder, made if it is missing: all of them, or none, and then all is as it was before.
 * Two runs never mix theirs: who comes while the other writes is told.
 *
 * Nothing else happens meanwhile, not even an interruption, which is heard afterwards.
 */
export function writeFiles(
  folder: string,
  files: readonly (readonly [name: string, content: string | Uint8Array])[],
): void {
  const writing = join(folder, WRITING);
  const places = files.map(([name], i) => ({
    file: join(folder, name),
    fresh: join(writing, `new-${i}`),
    old: join(writing, `old-${i}`),
  }));
  let made: string | undefined;
  let file = folder;
  try {
    made = mkdirSync(folder, { recursive: true });
    mkdirSync(writing);
  } catch (error) {
    const { code, path } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST' && path === writing) {
      throw cannot(folder, `another run is writing into it; if none is, delete "${writing}"`);
    }
    if (made !== undefined) rmSync(made, { recursive: true });
    throw explain(error, folder);
  }
  const undo: (() => void)[] = [];
  try {
    places.forEach((place, i) => {
      file = place.file;
      writeFileSync(place.fresh, files[i][1]);
    });
    for (const { file: target, fresh, old } of places) {
      file = target;
      const there = lstatSync(target, { throwIfNoEntry: false });
      if (there?.isDirectory()) throw cannot(target, 'is a folder, not a file');
      if (there) {
        renameSync(target, old);
        undo.push(() => renameSync(old, target));
      }
      renameSync(fresh, target);
      undo.push(() => renameSync(target, fresh));
    }
  } catch (error) {
    for (const step of undo.reverse()) step();
    // a folder made for this run alone goes with what is in it
    rmSync(made === undefined ? writing : resolve(made), { recursive: true });
    throw explain(error, file);
  }
  rmSync(writing, { recursive: true });
}

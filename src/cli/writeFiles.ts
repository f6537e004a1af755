import { createHash } from 'node:crypto';
import { lstatSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cannot } from './CommandError';
import { explain } from './explain';
import { makeFolder } from './makeFolder';

/** Stands in a folder while files are written into it: they are made in here first, and what they replace is kept in here. */
const WRITING = '.datumline-writing';

/** Names what was written into a folder, one a line after its SHA-256: only what is still so is ever removed. */
const WRITTEN = '.datumline-files';

/** What became of files that an earlier run wrote and this one doesn't, by name. */
export interface EarlierFiles {
  readonly removed: readonly string[];
  /** Changed since they were written, and so left as they are. */
  readonly changed: readonly string[];
}

/**
 * Writes the files of one run into a folder, made if it is missing: all of them, or none, and then all is as it was before.
 * Two runs never mix theirs: who comes while the other writes is told, and what an earlier one wrote that this one doesn't is
 * removed, unless somebody changed it since. Nothing else in the folder is touched.
 *
 * Nothing else happens meanwhile, not even an interruption, which is heard afterwards.
 */
export function writeFiles(
  folder: string,
  asked: readonly (readonly [name: string, content: string | Uint8Array])[],
): EarlierFiles {
  const writing = join(folder, WRITING);
  const list = asked.map(([name, text]) => `${hashOf(text)}  ${name}\n`).join('');
  const files = [...asked, [WRITTEN, list] as const];
  const places = files.map(([name], i) => ({
    file: join(folder, name),
    fresh: join(writing, `new-${i}`),
    old: join(writing, `old-${i}`),
  }));
  let made: string | undefined;
  let file = folder;
  try {
    made = makeFolder(folder);
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
  let earlier: EarlierFiles;
  try {
    earlier = earlierFiles(folder, new Set(files.map(([name]) => name)));
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
    earlier.removed.forEach((name, i) => {
      file = join(folder, name);
      const [target, old] = [file, join(writing, `earlier-${i}`)];
      renameSync(target, old);
      undo.push(() => renameSync(old, target));
    });
  } catch (error) {
    for (const step of undo.reverse()) step();
    // a folder made for this run alone goes with what is in it
    rmSync(made ?? writing, { recursive: true });
    throw explain(error, file);
  }
  rmSync(writing, { recursive: true });
  return earlier;
}

function earlierFiles(folder: string, written: ReadonlySet<string>): EarlierFiles {
  const removed: string[] = [];
  const changed: string[] = [];
  const list = join(folder, WRITTEN);
  const text = lstatSync(list, { throwIfNoEntry: false })?.isFile() ? readFileSync(list, 'utf8') : '';
  for (const [, hash, name] of text.matchAll(/^([\da-f]{64}) {2}([^/\\\n]+)$/gm)) {
    const file = join(folder, name);
    if (written.has(name) || !lstatSync(file, { throwIfNoEntry: false })?.isFile()) continue;
    (hashOf(readFileSync(file)) === hash ? removed : changed).push(name);
  }
  return { removed, changed };
}

const hashOf = (content: string | Uint8Array) => createHash('sha256').update(content).digest('hex');

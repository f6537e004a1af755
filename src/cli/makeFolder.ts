import { mkdirSync, rmSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/**
 * Makes a folder and what is missing above it, or nothing; returns the uppermost that it made, undefined where all were there.
 *
 * @remarks Node's own way never ends where a file system makes no folders and says of each that it isn't there, as `/proc`.
 */
export function makeFolder(folder: string): string | undefined {
  const missing: string[] = [];
  for (let at = resolve(folder); !isFolder(at); at = dirname(at)) {
    missing.push(at);
    // a drive that isn't there has nothing above it
    if (dirname(at) === at) break;
  }
  let made: string | undefined;
  for (const one of missing.reverse()) {
    try {
      mkdirSync(one);
      made ??= one;
    } catch (error) {
      // another run may have made it meanwhile
      if (isFolder(one)) continue;
      if (made !== undefined) rmSync(made, { recursive: true });
      throw error;
    }
  }
  return made;
}

const isFolder = (path: string) => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;

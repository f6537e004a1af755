import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { transformSync } from 'esbuild';
import { unfollowed } from './unfollowed';

/**
 * CommonJS of every entry, made file by file of the modules that are built: what entries share stays in files of its own, so that
 * `InputError` is one class whichever entry it came through. Names as they are written stand in the modules, for whoever follows a
 * stack trace.
 *
 * @param entries - Names of the entries, which lie in the folder as `NAME.js`.
 */
export function writeCommonJs(entries: readonly string[], folder: string): void {
  const files = entries.map((name) => join(folder, `${name}.js`));
  // a set takes in what is added while it is gone through
  const reached = new Set(files);
  for (const file of reached) {
    const module = readFileSync(file, 'utf8');
    for (const [, path] of module.matchAll(/(?:from|import)\s*\(?"(\.[^"]+\.js)"/g))
      reached.add(join(dirname(file), path));
    const { code } = transformSync(module.replace(/((?:from|import)\s*\(?"\.[^"]+)\.js"/g, '$1.cjs"'), {
      ...{ format: 'cjs', platform: 'node', target: 'es2022', minify: true },
    });
    writeFileSync(file.replace(/\.js$/, '.cjs'), unfollowed(code));
  }
}

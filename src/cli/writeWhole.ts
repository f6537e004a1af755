import { realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { explain } from './explain';

/** Writes a file, whole or not at all: beside its place, then put there. What is no file, a pipe for one, is written to. */
export function writeWhole(file: string, text: string): void {
  let beside: string | undefined;
  try {
    const there = statSync(file, { throwIfNoEntry: false });
    if (there && !there.isFile()) {
      writeFileSync(file, text);
      return;
    }
    // a link stays one
    const place = there ? realpathSync(file) : file;
    beside = join(dirname(place), `.datumline-${process.pid}`);
    writeFileSync(beside, text);
    renameSync(beside, place);
  } catch (error) {
    if (beside !== undefined) rmSync(beside, { force: true });
    throw explain(error, file);
  }
}

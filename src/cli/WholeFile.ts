import { randomUUID } from 'node:crypto';
import { closeSync, openSync, realpathSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { explain } from './explain';

/**
 * A file that is written bit by bit, and is there whole or not at all: made beside its place, and put there when it is
 * finished. What is no file, a pipe for one, is written to. A process that is killed leaves what stood there before.
 */
export class WholeFile {
  readonly #file: string;
  readonly #place: string;
  readonly #beside: string | undefined;
  readonly #descriptor: number;
  readonly #drop = () => this.drop();

  constructor(file: string) {
    this.#file = file;
    try {
      const there = statSync(file, { throwIfNoEntry: false });
      // a link stays one
      this.#place = there ? realpathSync(file) : file;
      // a folder may be shared by machines whose processes have the same number
      const name = `.datumline-${process.pid}-${randomUUID()}`;
      this.#beside = there && !there.isFile() ? undefined : join(dirname(this.#place), name);
      this.#descriptor = openSync(this.#beside ?? file, 'w');
    } catch (error) {
      throw explain(error, file);
    }
    process.once('exit', this.#drop);
  }

  write(text: string): void {
    const bytes = Buffer.from(text);
    try {
      for (let at = 0; at < bytes.length; ) at += writeSync(this.#descriptor, bytes, at);
    } catch (error) {
      this.drop();
      throw explain(error, this.#file);
    }
  }

  /** Puts the file in its place. */
  finish(): void {
    try {
      closeSync(this.#descriptor);
      if (this.#beside !== undefined) renameSync(this.#beside, this.#place);
    } catch (error) {
      this.drop();
      throw explain(error, this.#file);
    }
    process.removeListener('exit', this.#drop);
  }

  /** Leaves all as it was. */
  drop(): void {
    process.removeListener('exit', this.#drop);
    if (this.#beside !== undefined) rmSync(this.#beside, { force: true });
  }
}

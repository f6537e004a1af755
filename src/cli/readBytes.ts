import { readFile } from 'node:fs/promises';
import { explain } from './explain';
import { interruptible } from './interruptible';

/** The content of a file. A pipe that nobody writes to is waited for; an interruption ends that. */
export async function readBytes(file: string): Promise<Buffer> {
  try {
    return await interruptible(() => readFile(file));
  } catch (error) {
    throw explain(error, file);
  }
}

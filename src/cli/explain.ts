import { InputError } from '../model';
import { CommandError } from './CommandError';

const systemFaults: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EISDIR: 'is a folder, not a file',
  ENOTDIR: 'part of its path is not a folder',
  EEXIST: 'exists already and is not a folder',
  ENOSPC: 'no space left on the disk',
  EROFS: 'the disk is read-only',
  EMFILE: 'too many open files',
  ELOOP: 'links to itself',
  ENAMETOOLONG: 'the name is too long',
  ERR_FS_FILE_TOO_LARGE: 'too large to be read at once',
};

/** What went wrong with a file, as one sentence that begins with its name. */
export function explain(error: unknown, file: string): CommandError {
  if (error instanceof CommandError) return error;
  return new CommandError(`${file}: ${sentenceOf(error)}`, 1);
}

/** The sentence of any error, on one line. */
export function sentenceOf(error: unknown): string {
  if (error instanceof InputError || error instanceof CommandError) return onOneLine(error.message);
  const { code, message } = error as NodeJS.ErrnoException;
  if (code !== undefined && Object.hasOwn(systemFaults, code)) return systemFaults[code];
  return onOneLine(message ?? String(error));
}

function onOneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

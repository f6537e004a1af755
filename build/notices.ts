import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * The licences of the inlined packages, which ask that their notices travel with the code.
 *
 * @param files - what the code was made of; whatever lies in no package counts for nothing
 */
export function noticesOf(files: readonly string[]): string[] {
  const packages = new Set(files.flatMap((file) => file.match(/.*node_modules\/((?:@[^/]+\/)?[^/]+)/)?.[1] ?? []));
  return [...packages].sort().map((name) => {
    const folder = join('node_modules', name);
    const file = readdirSync(folder).find((candidate) => /^licen[cs]e/i.test(candidate));
    const { version, license, author } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    return `${name} ${version} (${license})\n\n${file ? readFileSync(join(folder, file), 'utf8').trim() : `No licence file; by ${author?.name ?? author}.`}\n`;
  });
}

/** Between one notice and the next. */
export const NOTICE_RULE = '\n----\n\n';

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * The names of the packages that code was made of.
 *
 * @param files - whatever lies in no package counts for nothing
 */
export function packagesOf(files: readonly string[]): string[] {
  return files.flatMap((file) => file.match(/.*node_modules\/((?:@[^/]+\/)?[^/]+)/)?.[1] ?? []);
}

/** The names of the packages whose notices a text of {@link noticesOf} has. */
export function packagesIn(notices: string): string[] {
  return [...notices.matchAll(/^(\S+) \d\S* \([^)]*\)$/gm)].map(([, name]) => name);
}

/**
 * The licences of the inlined packages, which ask that their notices travel with the code: who has the copyright of each, and under
 * those of the same terms the terms once.
 */
export function noticesOf(packages: readonly string[]): string {
  const byTerms = new Map<string, { terms: string; holders: string[] }>();
  for (const name of [...new Set(packages)].sort()) {
    const folder = join('node_modules', name);
    const file = readdirSync(folder).find((candidate) => /^licen[cs]e/i.test(candidate));
    const { version, license, author } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    const text = file ? readFileSync(join(folder, file), 'utf8') : `No licence file; by ${author?.name ?? author}.`;
    const lines = text.trim().split(/\r?\n/);
    const isHolder = (line: string) => /^(Copyright|\([cC]\)|©) /.test(line.trim());
    const terms = lines
      .filter((line) => !isHolder(line))
      .join('\n')
      .trim();
    // the same words, whatever their title and wherever their lines end
    const words =
      terms
        .replace(/^(the )?(mit|isc) license( \(mit\))?\.?$/im, '')
        .toLowerCase()
        .match(/[a-z]+/g) ?? [];
    const key = `${license} ${words.join(' ')}`;
    const same = byTerms.get(key) ?? { terms, holders: [] };
    byTerms.set(key, same);
    same.holders.push([`${name} ${version} (${license})`, ...lines.filter(isHolder)].join('\n'));
  }
  return [...byTerms.values()].map(({ terms, holders }) => `${holders.join('\n\n')}\n\n${terms}\n`).join('\n----\n\n');
}

import { cannot } from './CommandError';

/** The words that an object of a line must have, and those that it may have; each is a string that is not empty. */
export function lineWords<Must extends string, May extends string>(
  asked: Readonly<Record<string, unknown>>,
  must: readonly Must[],
  may: readonly May[],
  place: string,
): { readonly [key in Must]: string } & { readonly [key in May]?: string } {
  const found: Record<string, string> = {};
  const needed: readonly string[] = must;
  for (const key of [...must, ...may]) {
    const word = asked[key];
    if (word === undefined && !needed.includes(key)) continue;
    if (typeof word !== 'string' || word === '') throw cannot(place, `"${key}" must be a non-empty string`);
    found[key] = word;
  }
  return found as { readonly [key in Must]: string } & { readonly [key in May]?: string };
}

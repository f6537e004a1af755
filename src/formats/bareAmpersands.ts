import { InputError } from '../model';

/** A recording has some in its names; so many are an attack or an accident. */
const MAX_BARE = 1_000_000;

/** Longer names belong to no entity of a recording. */
const bare = '&(?!#|[\\p{L}_:][\\p{L}\\p{N}_:.-]{0,62};)';
const anywhere = new RegExp(bare, 'u');
/** Comments, literal parts and instructions, in which an ampersand is only itself, are matched to be passed over. */
const outside = new RegExp(`<!--[^]*?(?:-->|$)|<!\\[CDATA\\[[^]*?(?:\\]\\]>|$)|<\\?[^]*?(?:\\?>|$)|${bare}`, 'gu');

/**
 * Where in an XML document an ampersand stands that starts no reference, as makers forget to write `&amp;`: indices,
 * rising.
 *
 * @throws {InputError} `too-large` for more than a million
 */
export function bareAmpersands(document: string): number[] {
  const found: number[] = [];
  // nearly every document has none
  if (!document.includes('&') || !anywhere.test(document)) return found;
  for (const { 0: match, index } of document.matchAll(outside)) {
    if (match !== '&') continue;
    found.push(index);
    if (found.length > MAX_BARE) {
      throw new InputError({
        reason: 'too-large',
        argument: 'data',
        rule: `a document with at most ${MAX_BARE} ampersands that start no reference`,
        value: document.slice(index, index + 41),
      });
    }
  }
  return found;
}

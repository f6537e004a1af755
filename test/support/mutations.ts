import fc from 'fast-check';

/** What parsers stumble over: marks of every format, numbers out of range, half characters, very long runs. */
export const nasty: readonly string[] = [
  '<', '>', '&', '&#0;', '&#x110000;', '&lol;', ']]>', '<![CDATA[', '<!--', '-->', '<!DOCTYPE a [<!ENTITY b "c">]>', '<?', '?>',
  '"', "'", '{', '}', '[', ']', ',', ';', ':', '\\', '\u0000', '\uffff', '\ud800', '\ufeff', '\r', '\n', '\t', '$', '*', '!',
  'NaN', 'Infinity', '-Infinity', '1e999', '-1e999', '1e-999', '0x10', '-0', '90.0000001', '180', '-180', '181', '541', '1e20',
  'null', 'true', '""', '[]', '{}', '__proto__', 'constructor', '9999-12-31T23:59:60Z', '0000-01-01T00:00:00Z', '2026-02-30T00:00:00Z',
  '2026-05-01T08:00:00', '24:00:00', ' '.repeat(300), '9'.repeat(400), '<a>'.repeat(300), '['.repeat(300), '"'.repeat(51),
]; // biome-ignore format: a list of words

/** One change to a text: cut off, cut out, doubled, put elsewhere, or something nasty put in or over. */
const change = fc.record({
  kind: fc.constantFrom('cut', 'remove', 'double', 'move', 'insert', 'replace', 'swap'),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  to: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.integer({ min: 1, max: 60 }),
  word: fc.oneof(fc.constantFrom(...nasty), fc.string({ unit: 'binary', maxLength: 4 })),
});

/** One to four changes. */
export const textChanges = fc.array(change, { minLength: 1, maxLength: 4 });

/** The text changed. */
export function changeText(
  text: string,
  changes: readonly (typeof change extends fc.Arbitrary<infer T> ? T : never)[],
): string {
  let out = text;
  for (const { kind, at, to, length, word } of changes) {
    const from = Math.floor(at * out.length);
    const piece = out.slice(from, from + length);
    const rest = out.slice(from + length);
    if (kind === 'cut') out = out.slice(0, from);
    else if (kind === 'remove') out = out.slice(0, from) + rest;
    else if (kind === 'double') out = out.slice(0, from) + piece + piece + rest;
    else if (kind === 'insert') out = out.slice(0, from) + word + out.slice(from);
    else if (kind === 'replace') out = out.slice(0, from) + word + rest;
    else if (kind === 'move') {
      const other = out.slice(0, from) + rest;
      const place = Math.floor(to * other.length);
      out = other.slice(0, place) + piece + other.slice(place);
    } else out = out.slice(0, from) + [...piece].reverse().join('') + rest;
  }
  return out;
}

/** One to four changes of bytes. */
export const byteChanges = fc.array(
  fc.record({
    kind: fc.constantFrom('cut', 'remove', 'double', 'insert', 'replace', 'flip'),
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    bytes: fc.uint8Array({ minLength: 1, maxLength: 8 }),
  }),
  { minLength: 1, maxLength: 4 },
);

/** The bytes changed. */
export function changeBytes(
  given: Uint8Array,
  changes: readonly (typeof byteChanges extends fc.Arbitrary<infer T> ? T : never)[number][],
): Uint8Array {
  let out = Array.from(given);
  for (const { kind, at, bytes } of changes) {
    const from = Math.floor(at * out.length);
    if (kind === 'cut') out = out.slice(0, from);
    else if (kind === 'remove') out.splice(from, bytes.length);
    else if (kind === 'double') out.splice(from, 0, ...out.slice(from, from + bytes.length));
    else if (kind === 'insert') out.splice(from, 0, ...bytes);
    else if (kind === 'replace') out.splice(from, bytes.length, ...bytes);
    else for (let i = 0; i < bytes.length && from + i < out.length; i++) out[from + i] ^= bytes[i];
  }
  return Uint8Array.from(out);
}

import fc from 'fast-check';

/** Every place in a document, as a path of keys. */
export function placesIn(value: unknown, path: readonly string[] = []): (readonly string[])[] {
  const members = typeof value === 'object' && value !== null ? Object.entries(value) : [];
  return [path, ...members.flatMap(([key, member]) => placesIn(member, [...path, key]))];
}

const odd = [
  ...[null, undefined, true, '', 'left', 'x', '\ud800', [], {}, [null], [5, 60], { call: 'lineTo' }],
  ...[0, -1, 0.5, 1, 2, 91, 541, -0, Number.NaN, Infinity, 1e300, 5e-324],
];
const spoiling = fc.record({
  place: fc.nat(),
  kind: fc.constantFrom('delete', 'replace', 'replace', 'add'),
  value: fc.constantFrom(...odd),
  key: fc.constantFrom('colour', 'metres', 'call', 'from', 'notes', 'toString', '0'),
});
type Spoiling = typeof spoiling extends fc.Arbitrary<infer T> ? T : never;

/** One to three faults to put into a document: a member left out, replaced by something odd, or added. */
export const spoilings = fc.array(spoiling, { minLength: 1, maxLength: 3 });

/** A copy of the document with the faults in it. */
export function spoil(document: unknown, faults: readonly Spoiling[]): unknown {
  // biome-ignore lint/suspicious/noExplicitAny: a document to be spoilt
  const root: any = { document: structuredClone(document) };
  for (const { place, kind, value, key } of faults) {
    const places = placesIn(root.document, ['document']);
    const path = places[place % places.length];
    const holder = path.slice(0, -1).reduce((at, step) => at[step], root);
    const last = path[path.length - 1];
    const target = holder[last];
    if (kind === 'delete' && path.length > 1) delete holder[last];
    else if (kind === 'add' && typeof target === 'object' && target !== null) target[key] = structuredClone(value);
    else holder[last] = structuredClone(value);
  }
  return root.document;
}

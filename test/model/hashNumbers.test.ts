import { expect, test } from 'vitest';
import { hashesAlong } from '../../src/model/hashesAlong';
import { hashNumbers } from '../../src/model/hashNumbers';

test('hashNumbers is FNV-1a of 64 bits', () => {
  // Vectors that its authors (Fowler, Noll, Vo) print for "", "a" and "foobar", like the prime and the basis below: from memory.
  expect(hashNumbers([''])).toBe('cbf29ce484222325');
  expect(hashNumbers(['a'])).toBe('af63dc4c8601ec8c');
  expect(hashNumbers(['foobar'])).toBe('85944171f73967e8');
  const prime = 0x100000001b3n;
  const bytes = new Uint8Array(Float64Array.of(1.5, -2, 0.1).buffer);
  let expected = 0xcbf29ce484222325n;
  for (const byte of bytes) expected = ((expected ^ BigInt(byte)) * prime) & 0xffffffffffffffffn;
  expect(hashNumbers([[1.5, -2, 0.1]])).toBe(expected.toString(16).padStart(16, '0'));
});

test('hashesAlong ends with the hash of all, and holds those of what comes before', () => {
  const parts = [Float64Array.of(1.5, -2), Uint8Array.of(0, 1, 0), 'quay'];
  expect(hashesAlong(parts)).toEqual(parts.map((_, i) => hashNumbers(parts.slice(0, i + 1))));
  expect(hashNumbers([Uint8Array.of(0, 1, 0)])).toBe(hashNumbers([[0, 1, 0]]));
});

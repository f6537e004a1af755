import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseDecimal, parseFinite } from '../../src/formats/parseDecimal';

test.each([
  ['60', 60],
  ['-0', -0],
  ['+5.', 5],
  ['.5', 0.5],
  [' 7.25\n', 7.25],
  ['1e3', 1000],
  ['0.1', 0.1],
  // more digits than a double holds, more places than powers of ten are exact
  ['9007199254740993', 9007199254740992],
  ['5.00000000000000088817841970012523', 5.000000000000001],
  [`0.${'0'.repeat(30)}1`, 1e-31],
  ['1e999', Number.POSITIVE_INFINITY],
  ['9'.repeat(400), Number.POSITIVE_INFINITY],
])('%j is %d', (text, value) => {
  expect(parseDecimal(text)).toBe(value);
  expect(parseFinite(text)).toBe(Number.isFinite(value) ? value : Number.NaN);
});

test.each(['', ' ', '-', '+', '.', '-.', '1.2.3', '1,5', '0x10', 'Infinity', 'NaN', '1 2', '--1', '5a', 'e5'])(
  '%j is no number',
  (text) => {
    expect(parseDecimal(text)).toBeNaN();
  },
);

test('to the last bit it is what the language reads, wherever in a text it stands', () => {
  const digits = fc.tuple(
    fc.constantFrom('', '-', '+'),
    fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: 20 }),
    fc.option(fc.string({ unit: fc.constantFrom(...'0123456789'), maxLength: 26 }), { nil: undefined }),
  );
  const written = digits.map(([sign, whole, places]) => `${sign}${whole}${places === undefined ? '' : `.${places}`}`);
  const any = fc.oneof(written, fc.double({ noNaN: true, noDefaultInfinity: true }).map(String));
  fc.assert(
    fc.property(any, fc.string({ maxLength: 3 }), fc.string({ maxLength: 3 }), (text, before, after) => {
      expect(parseDecimal(before + text + after, before.length, before.length + text.length)).toBe(Number(text));
    }),
    { seed: 61, numRuns: 5000 },
  );
});

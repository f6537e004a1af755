import fc from 'fast-check';
import { expect, test } from 'vitest';
import { jsonFault } from '../../src/cli/jsonFault';

const isJson = (text: string) => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

test.each([
  ['{"a": }', 6],
  ['{"a" 1}', 5],
  ['{a: 1}', 1],
  ['[1,]', 3],
  ['{"a": 1,}', 8],
  ['[1 2]', 3],
  ['{} x', 3],
  ['[01]', 2],
  ['["a\nb"]', 1],
  ['', 0],
  ['[[1, 2]', 7],
  ['[}', 1],
])('the first fault of %j is at %i', (text, offset) => {
  expect(jsonFault(text)).toBe(offset);
});

test('what JSON.parse takes has no fault, what it refuses has one', () => {
  fc.assert(
    fc.property(
      fc.json(),
      fc.nat(),
      fc.constantFrom('', ',', '"', '}', ']', '{', '[', ':', '\\', 'x', '1'),
      (text, at, put) => {
        expect(jsonFault(text)).toBe(text.length);
        const spoilt = text.slice(0, at % (text.length + 1)) + put + text.slice((at % (text.length + 1)) + 1);
        const fault = jsonFault(spoilt);
        // a text whose fault is its end may be whole or cut off; any other is refused
        if (fault < spoilt.length) expect(isJson(spoilt)).toBe(false);
        if (isJson(spoilt)) expect(fault).toBe(spoilt.length);
        // what stands before the fault can be continued to JSON: the place is not too late
        expect(jsonFault(spoilt.slice(0, fault))).toBe(fault);
      },
    ),
    { seed: 7, numRuns: 2000 },
  );
});

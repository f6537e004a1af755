import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lostByReading } from '../../src/cli/lostByReading';

test.each([
  ['{"key":"a","key":"b"}', 'the key "key" stands twice in one object'],
  // the same key, one of them written with an escape (RFC 8259, section 8.3)
  ['{"a":{"b":1},"\\u0061":2}', 'the key "a" stands twice in one object'],
  ['{"list":[{"x":1},{"x":1, "x" :2}]}', 'the key "x" stands twice in one object'],
  // 2^53 + 1 is the first whole number that a double doesn't hold (RFC 8259, section 6; IEEE 754)
  ['{"id":9007199254740993}', '9007199254740993 has more digits than are kept of a number: write it as a string, '],
  ['{"id":[-9007199254740993]}', '-9007199254740993 has more digits'],
  ['{"id":1e400}', '1e400 has more digits'],
])('%s', (text, told) => expect(lostByReading(text)?.slice(0, told.length)).toBe(told));

test.each([
  '{"id":9007199254740992,"far":100000000000000000000,"share":0.1,"small":1e-400}',
  '{"a":{"a":{"a":1}},"b":[{"a":1},{"a":2}]}',
  '{"text":"9007199254740993 \\"key\\":1, {\\\\","key":1}',
])('%s loses nothing', (text) => expect(lostByReading(text)).toBeUndefined());

test('what was written of a value is read as it was', () => {
  fc.assert(
    fc.property(fc.json(), (text) => {
      expect(lostByReading(text)).toBeUndefined();
    }),
  );
});

test('a string as long as a file', () => {
  expect(lostByReading(JSON.stringify({ key: `${'x'.repeat(3e7)}"`, k: 1 }))).toBeUndefined();
});

import { expect, test } from 'vitest';
import { speedTable } from '../../bench/support/speedTable';
import { writeBetween } from '../../bench/support/writeBetween';

test('what stands between the markers is replaced, all else kept', () => {
  const document = 'above\n<!-- speed:begin -->\nold\n<!-- speed:end -->\nbelow <!-- other:end -->\n';
  expect(writeBetween(document, 'speed', 'new $& $1')).toBe(
    'above\n<!-- speed:begin -->\nnew $& $1\n<!-- speed:end -->\nbelow <!-- other:end -->\n',
  );
  expect(writeBetween(writeBetween(document, 'speed', 'a'), 'speed', 'old')).toBe(document);
});

test.each([
  'none',
  '<!-- speed:begin -->',
  '<!-- speed:end --><!-- speed:begin -->',
  '<!-- speed:begin --><!-- speed:begin --><!-- speed:end -->',
])('markers that are not once and in order are refused: %s', (document) => {
  expect(() => writeBetween(document, 'speed', 'x')).toThrow(
    'must have "<!-- speed:begin -->" … "<!-- speed:end -->" once',
  );
});

test('a row shows its promise, whether it held, and its peers with their errors', () => {
  const peers = [
    { name: 'slow', time: '3 s', error: '2 m' },
    { name: 'other', time: '1 s' },
  ];
  const [, , ...lines] = speedTable([
    { what: 'a|b', ours: '1 ms', promise: '≤ 2 ms', held: true, error: '1 nm', peers },
    { what: 'c', ours: '9 ms', held: false },
  ]).split('\n');
  expect(lines).toEqual([
    '| a\\|b | 1 ms | ≤ 2 ms | yes | 1 nm | slow 3 s (2 m), other 1 s |',
    '| c | 9 ms |  | NO |  |  |',
  ]);
});

import { expect, test } from 'vitest';
import { csvCell } from '../../src/report/csvCell';

test('RFC 4180, section 2, rules 5 to 7: quotes where needed, quotes doubled', () => {
  expect(csvCell('aaa')).toBe('aaa');
  expect(csvCell('b CRLF\r\nbb')).toBe('"b CRLF\r\nbb"');
  expect(csvCell('b"bb')).toBe('"b""bb"');
  expect(csvCell('a,b')).toBe('"a,b"');
});

test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '  =1', '＝1'])('text %j cannot run as a formula', (text) => {
  expect(csvCell(text)).toMatch(/^"?'/);
});

test('figures stay figures, what is not known is empty', () => {
  expect(csvCell(-1.5)).toBe('-1.5');
  expect(csvCell(null)).toBe('');
  expect(csvCell(Number.NaN)).toBe('');
});

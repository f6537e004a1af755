import { type Recording, readCsv, writeCsv } from 'datumline';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { csvTable, unguarded } from '../../src/formats/csvTable';

const csvCell = (value: string | number | null) => csvTable([[value]]).slice(0, -2);

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

test('an exponent is written out', () => {
  expect(
    csvTable([
      [1e-7, -2.5e-9],
      ['a', 1e21],
    ]),
  ).toBe('0.0000001,-0.0000000025\r\na,1000000000000000000000\r\n');
});

const names = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 8 }),
  fc.stringMatching(/^[' \t=+@-]{1,6}x?$/),
  fc.constantFrom("'=1", "''=1", "'a", "' =1", '\r\n=1'),
);

test('what is guarded is given back as it was, whatever it is', () => {
  fc.assert(
    fc.property(names, (name) => {
      const cell = csvCell(name);
      const plain = cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell;
      expect(unguarded(plain)).toBe(name);
    }),
    { seed: 41, numRuns: 2000 },
  );
});

test.each(['=cmd', '-chest', "'=cmd", '@left'])(
  'a recording named %s is written guarded and read back by its name',
  (name) => {
    const recording: Recording = { ...readCsv('lat,lon\n60,5\n60.1,5')[0], name };
    expect(writeCsv(recording).split('\r\n')[1]).toMatch(/^'/);
    expect(readCsv(writeCsv(recording))[0].name).toBe(name);
  },
);

import { expect, test } from 'vitest';
import { calledNames } from './callCase';
import { runCase } from './runCase';
import { unsoundAt } from './soundness';

// npm run fuzz runs any number of them; what it found so far has tests of its own beside what it was found in
test('2 000 cases: documents, calls and laws', async () => {
  const seen = new Set<string>();
  for (let index = 0; index < 2000; index++) {
    const { kind, name, fault } = await runCase(1, index);
    seen.add(kind === 'call' ? `call ${name}` : kind === 'invariant' ? `law ${name}` : kind);
    expect(fault, `case ${index}: ${kind} ${name}`).toBeUndefined();
  }
  // nearly every function came up, and every law but the slowest
  expect([...seen].filter((name) => name.startsWith('call')).length).toBeGreaterThan(calledNames.length - 8);
  expect(seen).toContain('document');
  for (const law of ['measures', 'places', 'derived', 'placed']) expect(seen).toContain(`law ${law}`);
});

test('a case is the same whenever it is run', async () => {
  for (const index of [3, 17, 99]) expect(await runCase(5, index)).toEqual(await runCase(5, index));
});

test('a number that is none is found wherever it stands, but for NaN in a column', () => {
  expect(unsoundAt({ a: [1, { b: Number.NaN }] })).toBe('answer.a.1.b is NaN');
  expect(unsoundAt({ a: Float64Array.of(1, Number.NaN) })).toBeUndefined();
  expect(unsoundAt({ a: Float64Array.of(1, -Infinity) })).toBe('answer.a[1] is -Infinity');
  expect(unsoundAt('<p>NaN s</p>')).toBe('answer says <p>NaN');
});

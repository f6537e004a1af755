import { expect, test } from 'vitest';
import { sectionAt, sectionsAt } from '../../src/model';

const section = (name: string, from: number, to: number) => ({ name, from, to });
// as a route has them: in order along it, of those that begin together the shorter first
const sections = [
  section('quay', 0, 300),
  section('whole', 0, 1000),
  section('lane', 300, 500),
  section('bridge', 400, 450),
  section('park', 900, 1000),
];
const namesAt = (at: number) => sectionsAt({ sections }, at).map(({ name }) => name);

test('of sections in one another the innermost holds a place, wherever they begin', () => {
  expect(namesAt(0)).toEqual(['quay', 'whole']);
  expect(namesAt(300)).toEqual(['lane', 'whole']);
  expect(namesAt(420)).toEqual(['bridge', 'lane', 'whole']);
  expect(namesAt(700)).toEqual(['whole']);
  expect([0, 420, 700].map((at) => sectionAt({ sections }, at)?.name)).toEqual(['quay', 'bridge', 'whole']);
});

test('an end belongs to the section that begins there, else to those that end there', () => {
  expect(namesAt(450)).toEqual(['lane', 'whole']);
  expect(namesAt(1000)).toEqual(['park', 'whole']);
  expect(sectionAt({ sections: [section('a', 0, 10), section('b', 10, 20)] }, 10)?.name).toBe('b');
  expect(sectionAt({ sections: [section('a', 0, 10), section('b', 10, 20)] }, 20)?.name).toBe('b');
});

test.each([-1, 1001, Number.NaN])('none holds %s', (at) => {
  expect(namesAt(at)).toEqual([]);
  expect(sectionAt({ sections }, at)).toBeUndefined();
});

import { expect, test } from 'vitest';
import { type Section, sectionFinder } from '../../src/model';
import { seeded } from '../support/randomLine';

const section = (name: string, from: number, to: number) => ({ name, from, to });
// as a route has them: in order along it, of those that begin together the shorter first
const sections = [
  section('quay', 0, 300),
  section('whole', 0, 1000),
  section('lane', 300, 500),
  section('bridge', 400, 450),
  section('park', 900, 1000),
];
const namesAt = (at: number) => sectionFinder({ sections })(at).map(({ name }) => name);

test('of sections in one another the innermost holds a place, wherever they begin', () => {
  expect(namesAt(0)).toEqual(['quay', 'whole']);
  expect(namesAt(300)).toEqual(['lane', 'whole']);
  expect(namesAt(420)).toEqual(['bridge', 'lane', 'whole']);
  expect(namesAt(700)).toEqual(['whole']);
});

test('an end belongs to the section that begins there, else to those that end there', () => {
  expect(namesAt(450)).toEqual(['lane', 'whole']);
  expect(namesAt(1000)).toEqual(['park', 'whole']);
  const find = sectionFinder({ sections: [section('a', 0, 10), section('b', 10, 20)] });
  expect([10, 20].map((at) => find(at)[0].name)).toEqual(['b', 'b']);
});

test.each([-1, 1001, Number.NaN])('none holds %s', (at) => {
  expect(namesAt(at)).toEqual([]);
});

/** By a look at every section. */
function holding(sections: readonly Section[], at: number): Section[] {
  const within = sections.filter(({ from, to }) => at >= from && at < to);
  const ending = sections.filter(({ from, to }) => at >= from && at === to);
  const found = within.length > 0 ? within : ending;
  return found.sort((a, b) => a.to - a.from - (b.to - b.from) || b.from - a.from);
}

/** Sections whose ends are looked at no more often than is counted. */
function counted(sections: readonly Section[]): { sections: Section[]; looks: () => number } {
  let looks = 0;
  const watched = sections.map(({ name, from, to }) => ({
    name,
    get from() {
      looks++;
      return from;
    },
    get to() {
      looks++;
      return to;
    },
  }));
  return { sections: watched, looks: () => looks };
}

test('as by a look at all sections: in one another, overlapping, beside each other, of no length, in any order', () => {
  const draw = seeded(1);
  for (let round = 0; round < 300; round++) {
    const reach = [3, 20, 300][round % 3];
    const sections = Array.from({ length: Math.floor(30 * draw()) }, (_, i) => {
      const from = Math.floor(draw() * reach);
      return { name: `${i}`, from, to: from + Math.floor(draw() * draw() * (reach - from)) };
    });
    const find = sectionFinder({ sections });
    for (const at of [Number.NaN, -1, ...Array.from({ length: 2 * reach + 2 }, (_, k) => k / 2)]) {
      expect(find(at), `${at} of ${JSON.stringify(sections)}`).toEqual(holding(sections, at));
    }
  }
});

test.each([
  ['four a lap, all in one', (k: number) => [{ from: 8 * k, to: 8 * k + 8 }]],
  ['overlapping the next', (k: number) => [{ from: 8 * k, to: 8 * k + 12 }]],
  ['with gaps between', (k: number) => [{ from: 8 * k, to: 8 * k + 4 }]],
] as const)('of thousands of sections, %s, few are looked at for a place', (_, make) => {
  const count = 4000;
  const list = Array.from({ length: count }, (_, k) => make(k)).flat();
  const whole = _.includes('in one') ? [{ from: 0, to: 8 * count }] : [];
  const { sections, looks } = counted([...whole, ...list].map((one, i) => ({ name: `${i}`, ...one })));
  const find = sectionFinder({ sections });
  const begun = looks();
  for (let k = 0; k < count; k++) find(8 * k + 6);
  // twice the logarithm for either order, and those around
  expect(looks() - begun).toBeLessThan(count * 60);
});

import type { Assessment } from 'datumline';
import { expect, test } from 'vitest';
import { reportModel } from '../../src/report/reportModel';
import { seeded } from '../support/randomLine';
import { inventedAssessment } from './invented';

test.each([1, 2, 3])('excursions come together to the places found by trying every one, seed %i', (seed) => {
  const random = seeded(seed);
  const base = inventedAssessment();
  const [like] = base.excursions;
  const excursions = Array.from({ length: 150 }, (_, i) => {
    const from = 600 * random();
    // some without a length, some as long as half the route
    const metres = [0, 5, 30, 300][i % 4] * random();
    const to = Math.min(600, from + metres);
    const recording = base.recordings[Math.floor(3 * random())].name;
    return {
      ...like,
      number: i + 1,
      recording,
      from,
      to,
      metres: to - from,
      peak: 40 * (random() - 0.5),
      peakAt: from,
    };
  });
  const assessment: Assessment = { ...base, excursions };
  const worstFirst = [...excursions].sort((a, b) => Math.abs(b.peak) - Math.abs(a.peak));
  const places: (typeof excursions)[] = [];
  for (const one of worstFirst) {
    const home = places.find(([worst]) => {
      const common = Math.min(worst.to, one.to) - Math.max(worst.from, one.from);
      return common >= 0.5 * Math.min(worst.to - worst.from, one.to - one.from);
    });
    if (home) home.push(one);
    else places.push([one]);
  }
  const numbers = (all: readonly { readonly number: number }[]) => all.map(({ number }) => number);
  const found = reportModel(assessment).places.map(({ strayings }) => strayings.map(({ excursion }) => excursion));
  expect(found.map(numbers)).toEqual(places.map(numbers));
  expect(places.length).toBeGreaterThan(20);
});

import { mean } from 'd3-array';
import { expect, test } from 'vitest';
import { clockOffsets } from '../../src/snap/clockOffsets';
import { sharedClock } from '../../src/snap/sharedClock';
import { snap } from '../../src/subpaths/snap';
import { type PlanePoint, planeRoute } from '../support/planeRoute';
import { type SimulatedReceiver, simulateRun } from '../support/simulateRun';

const line = (...points: PlanePoint[]) => planeRoute([5, 52], points);
const town = line([0, 0], [1500, 0], [1500, 1000], [0, 1000], [0, 2000]);

/** Clocks of receivers on one body at a walk, seconds ahead as given. */
function clocksOf(seed: number, receivers: readonly SimulatedReceiver[], speed = 1.4) {
  const runs = simulateRun(town, { seed, speed, receivers });
  const snapped = runs.map(({ recording }) => snap(town, recording));
  const times = runs.map(({ recording }) => recording.time!);
  return (ahead: readonly number[]) =>
    clockOffsets(
      town.length,
      times.map((time, i) => time.map((instant) => instant + 1000 * ahead[i])),
      snapped,
    );
}

const deviation = (values: readonly number[]) => {
  const centre = mean(values)!;
  return Math.sqrt(mean(values.map((value) => (value - centre) ** 2))!);
};

// the estimator was chosen on seeds below 30 000; these were not looked at
const heldBack = Array.from({ length: 40 }, (_, i) => 51_000 + i);

const ofEight = heldBack.map((seed) => clocksOf(seed, [{ sigma: 8 }, { sigma: 8 }, { sigma: 8 }]));

test.each([
  ['three of 8 m', [8, 8, 8], 1, 0.35],
  ['a noisy one beside two good ones', [3, 3, 8], 1, 0.15],
] as const)('a clock 2 s ahead at a walk, %s: 2 s from the others, on seeds held back', (_, sigmas, sd, short) => {
  const late = sigmas.length - 1;
  const all =
    sigmas[0] === 8
      ? ofEight
      : heldBack.map((seed) =>
          clocksOf(
            seed,
            sigmas.map((sigma) => ({ sigma })),
          ),
        );
  const offsets = (ahead: number) =>
    all.map((clocks) => clocks(sigmas.map((_, i) => (i === late ? ahead : 0))).map(({ offset }) => offset));
  const [told, none] = [offsets(2), offsets(0)];
  // the same errors with and without the lag: what they make of it cancels, what the estimator makes of it stays
  const beyond = (which: number) => mean(told, (clocks, k) => clocks[which] - none[k][which])!;
  const sound = mean(sigmas.slice(0, late), (_, i) => beyond(i))!;
  expect(Math.abs(beyond(late) - sound - 2)).toBeLessThan(0.15);
  // which of them are right the noise hides now and then
  expect(Math.abs(beyond(late) - 2)).toBeLessThan(short);
  expect(Math.abs(sound)).toBeLessThan(short);
  // and the errors themselves fall to both sides: a mean of 0, by three of its standard errors
  const ofLate = none.map((clocks) => clocks[late]);
  expect(Math.abs(mean(ofLate)!)).toBeLessThan((3 * deviation(ofLate)) / Math.sqrt(ofLate.length));
  expect(deviation(ofLate)).toBeLessThan(1.3 * sd);
});

test('two clocks differ by the mean of their errors: the standard error says by how much, within a factor of 1.7', () => {
  const all = ofEight.map((clocks) => clocks([0, 0, 0]));
  const misses = all.map(([a, b]) => (a.offset - b.offset) / Math.hypot(a.standardError, b.standardError));
  expect(deviation(misses)).toBeGreaterThan(0.8);
  expect(deviation(misses)).toBeLessThan(1.7);
});

test.each([
  ['seconds', [0, 4, -0.5]],
  ['hours', [0, 7200, 3600.5]],
  ['days', [0, 86_400 * 3, 12]],
] as const)('without noise %s come out to the tenth of a second, a stop and a gap between', (_, ahead) => {
  const none = clocksOf(9, [{ sigma: 0.01 }, { sigma: 0.01, gaps: [{ from: 200, to: 320 }] }, { sigma: 0.01 }], 3);
  const offsets = none(ahead).map(({ offset }) => offset);
  const middle = [...ahead].sort((a, b) => a - b)[1];
  ahead.forEach((seconds, i) => {
    expect(Math.abs(offsets[i] - (seconds - middle))).toBeLessThan(0.1);
  });
});

test('one fix every 30 s is enough', () => {
  const offsets = heldBack.slice(0, 8).map((seed) => {
    const receivers = [{ sigma: 3 }, { sigma: 3 }, { sigma: 3, interval: 30 }];
    return clocksOf(seed, receivers)([0, 0, 6])[2].offset;
  });
  expect(Math.abs(mean(offsets)! - 6)).toBeLessThan(0.8);
});

test('one clear of the noise is as late as it is, and the others are not late', () => {
  for (const ahead of [4, 8]) {
    const told = ofEight.map((clocks) => [clocks([0, 0, ahead]), clocks([0, 0, 0])] as const);
    const beyond = (which: number) => mean(told, ([late, none]) => late[which].offset - none[which].offset)!;
    expect(Math.abs(beyond(2) - ahead)).toBeLessThan(0.15);
    for (const sound of [0, 1]) expect(Math.abs(beyond(sound))).toBeLessThan(0.15);
  }
});

const clock = (offset: number, standardError: number) => ({ offset, standardError });

test.each([
  ['of two nobody says which is late', [clock(-3, 0.1), clock(3, 0.1)], 0],
  ['of four, three agree', [clock(-0.1, 0.1), clock(0.1, 0.1), clock(0, 0.1), clock(2, 0.1)], 0],
  ['two agree, whatever the third says', [clock(0, 0.1), clock(0.1, 0.1), clock(0.53, 0.1)], 0.05],
  ['as far apart as noise goes', [clock(0, 0.1), clock(30, 0.1), clock(0.56, 0.1)], 0.28],
  ['further apart: the median of all', [clock(0, 0.1), clock(30, 0.1), clock(0.57, 0.1)], 0.57],
  ['one that says nothing is left out', [clock(0, 0.1), clock(-9, Number.NaN), clock(2, 0.1)], 1],
  ['none says anything', [clock(0, Number.NaN), clock(2, Number.NaN), clock(3, Number.NaN)], 2],
  ['one alone', [clock(4, 0.1)], 4],
] as const)('the shared clock: %s', (_, clocks, expected) => {
  expect(sharedClock(clocks)).toBeCloseTo(expected, 9);
});

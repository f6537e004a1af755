import { assess, combine, combineAsync, type Progress, routeBuilder, runFigures } from 'datumline';
import { afterEach, expect, test, vi } from 'vitest';
import { simulateRun } from '../support/simulateRun';

const route = routeBuilder()
  .start([2.1, 61.4])
  .section('quay')
  .lineBy({ azimuth: 90, distance: 250 })
  .section('lane')
  .lineBy({ azimuth: 10, distance: 200 })
  .build();
const runs = [1, 2, 3, 4].map((seed) =>
  assess(
    route,
    simulateRun(route, { seed, receivers: [{}, { bias: 3 }, { sigma: 8 }] }).map(({ recording }, i) => ({
      recording,
      receiver: `r${i}`,
      placement: i === seed % 3 ? 'left' : 'right',
      run: `run ${seed}`,
    })),
  ),
);

afterEach(() => vi.restoreAllMocks());

test('the answer is that of combine, to the last bit, rests or none', async () => {
  const expected = JSON.stringify(combine(runs, { baseline: 'r1' }));
  expect(JSON.stringify(await combineAsync(runs, { baseline: 'r1' }))).toBe(expected);
  let now = 0;
  vi.spyOn(performance, 'now').mockImplementation(() => (now += 1000));
  expect(JSON.stringify(await combineAsync(runs.map(runFigures), { baseline: 'r1' }))).toBe(expected);
});

test('left at every step: rejected with the reason', async () => {
  const whole: Progress[] = [];
  await combineAsync(runs, { onProgress: (progress) => whole.push(progress) });
  expect(whole.map(({ done, of, what }) => `${done}/${of} ${what}`)).toEqual([
    '1/4 assessments',
    '2/4 assessments',
    '3/4 assessments',
    '4/4 assessments',
    '1/3 sections',
    '2/3 sections',
    '3/3 sections',
  ]);
  for (let when = 1; when <= whole.length; when++) {
    const stop = new AbortController();
    let told = 0;
    const onProgress = () => {
      if (++told === when) stop.abort(when);
    };
    await expect(combineAsync(runs, { signal: stop.signal, onProgress })).rejects.toBe(when);
    expect(told).toBe(when);
  }
});

test('it rests between assessments, and between the pairs of a section', async () => {
  let now = 0;
  vi.spyOn(performance, 'now').mockImplementation(() => (now += 1000));
  const rests = vi.fn((then: () => void) => queueMicrotask(then));
  vi.stubGlobal('setImmediate', rests);
  await combineAsync(runs);
  vi.unstubAllGlobals();
  expect(rests.mock.calls.length).toBeGreaterThanOrEqual(4 + 3 * 3 * 3);
});

test('what combine refuses is refused as it does, by a promise', async () => {
  await expect(combineAsync([])).rejects.toThrow('assessments must be at least 1 assessment');
  await expect(combineAsync(runs, { baseline: 'x' })).rejects.toThrow('options.baseline must be');
  await expect(combineAsync(runs, { signal: {} as never })).rejects.toThrow('options.signal must be an AbortSignal');
  await expect(combineAsync(runs, { signal: AbortSignal.abort('no') })).rejects.toBe('no');
});

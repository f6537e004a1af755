import { assess, type Progress, routeBuilder } from 'datumline';
import { reportHtml, reportHtmlAsync } from 'datumline/report';
import { afterEach, expect, test, vi } from 'vitest';
import { simulateRun } from '../support/simulateRun';

const route = routeBuilder()
  .start([2.1, 61.4])
  .section('quay')
  .lineBy({ azimuth: 90, distance: 150 })
  .section('lane')
  .lineBy({ azimuth: 10, distance: 100 })
  .build();
const runs = [1, 2].map((seed) =>
  assess(
    route,
    simulateRun(route, { seed, receivers: [{}, { bias: 3 }] }).map(({ recording }, i) => ({
      recording,
      receiver: `r${i}`,
      run: `run ${seed}`,
    })),
  ),
);

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

test('the page is that of reportHtml, to the last character, with a rest between its parts', async () => {
  let now = 0;
  vi.spyOn(performance, 'now').mockImplementation(() => (now += 1000));
  const rests = vi.fn((then: () => void) => queueMicrotask(then));
  vi.stubGlobal('setImmediate', rests);
  const told: Progress[] = [];
  const page = await reportHtmlAsync(runs, { title: 'Two runs', onProgress: (progress) => told.push(progress) });
  expect(page).toBe(reportHtml(runs, { title: 'Two runs' }));
  const parts = told.filter(({ what }) => what === 'parts');
  expect(parts.map(({ done }) => done)).toEqual(Array.from({ length: parts[0].of! }, (_, i) => i + 1));
  // each receiver's ribbon and each stretch is one too
  expect(rests.mock.calls.length).toBeGreaterThanOrEqual(told.length + 2 + 2);
});

test('left at every step: rejected with the reason', async () => {
  let steps = 0;
  await reportHtmlAsync(runs, { onProgress: () => steps++ });
  for (let when = 1; when <= steps; when += 5) {
    const stop = new AbortController();
    let told = 0;
    const onProgress = () => {
      if (++told === when) stop.abort(when);
    };
    await expect(reportHtmlAsync(runs, { signal: stop.signal, onProgress })).rejects.toBe(when);
    expect(told).toBe(when);
  }
});

test('what reportHtml refuses is refused as it does, by a promise', async () => {
  await expect(reportHtmlAsync([])).rejects.toThrow('assessments must be at least one assessment');
  await expect(reportHtmlAsync(runs, { onProgress: 5 as never })).rejects.toThrow(
    'options.onProgress must be a function, not 5',
  );
  await expect(reportHtmlAsync(runs, { signal: AbortSignal.abort('no') })).rejects.toBe('no');
});

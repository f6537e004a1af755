import { type AssessOptions, assess, assessAsync, InputError, type Progress, routeBuilder } from 'datumline';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { simulateRun } from '../support/simulateRun';

const route = routeBuilder({ lateral95: 0.5 })
  .start([2.1, 61.4])
  .section('quay', { halfWidth: 8 })
  .lineBy({ azimuth: 90, distance: 250 })
  .section('lane')
  .lineBy({ azimuth: 10, distance: 200 })
  .build();
const carried = [1, 2].flatMap((run) =>
  simulateRun(route, { seed: run, receivers: [{}, { bias: 3 }, { sigma: 8 }] }).map(({ recording }, i) => ({
    recording,
    receiver: `r${i}`,
    run: `run ${run}`,
  })),
);
const area = {
  name: 'house',
  kind: 'impossible' as const,
  geometry: { type: 'Polygon' as const, coordinates: [[[2.101, 61.4001], [2.102, 61.4001], [2.102, 61.4005], [2.101, 61.4001]]] }, // biome-ignore format: one ring
};
const variants: Readonly<Record<string, AssessOptions>> = {
  plain: {},
  'with everything': {
    decoy: [
      [2.1, 61.4001],
      [2.104, 61.4001],
    ],
    centreline: [
      [2.1, 61.39995],
      [2.104, 61.39995],
    ],
    exclude: [{ from: 20, to: 40, reason: 'a lorry' }],
    baseline: 'r0',
    areas: [area],
  },
  apart: { pace: 'apart' },
};

/** Rests after every step, as if each took long. */
const restAlways = () => {
  let now = 0;
  vi.spyOn(performance, 'now').mockImplementation(() => (now += 1000));
};
afterEach(() => vi.restoreAllMocks());

test.each(Object.entries(variants))('%s: the answer is that of assess, to the last bit', async (_, options) => {
  restAlways();
  expect(JSON.stringify(await assessAsync(route, carried, options))).toBe(
    JSON.stringify(assess(route, carried, options)),
  );
});

test('recordings, rows and pairs are told of, each to its end', async () => {
  const told: Progress[] = [];
  await assessAsync(route, carried, { onProgress: (progress) => told.push(progress) });
  const counts = { recordings: 6, rows: 6 * 3, pairs: 2 * 3 * 3 };
  expect(told).toEqual(
    Object.entries(counts).flatMap(([what, of]) => Array.from({ length: of }, (_, i) => ({ done: i + 1, of, what }))),
  );
});

test('no rest is further from the next than one recording, row or pair: their number grows with the work', async () => {
  restAlways();
  const rests = vi.fn((then: () => void) => queueMicrotask(then));
  vi.stubGlobal('setImmediate', rests);
  const counted = async (recordings: number) => {
    rests.mockClear();
    await assessAsync(route, carried.slice(0, recordings));
    return rests.mock.calls.length;
  };
  const [one, three] = [await counted(1), await counted(3)];
  vi.unstubAllGlobals();
  // placed, described, strayed, and a row a stretch; and a pair a stretch
  expect(one).toBeGreaterThanOrEqual(3 + 3);
  expect(three - one).toBeGreaterThanOrEqual(2 * (3 + 3) + 3 * 3);
});

describe('left', () => {
  test('at every step: rejected with the reason, and nothing is told afterwards', async () => {
    const whole: Progress[] = [];
    await assessAsync(route, carried, { onProgress: (progress) => whole.push(progress) });
    for (let when = 1; when <= whole.length; when++) {
      const stop = new AbortController();
      const reason = new Error('not wanted any more');
      const told: Progress[] = [];
      const answer = assessAsync(route, carried, {
        signal: stop.signal,
        onProgress(progress) {
          if (told.push(progress) === when) stop.abort(reason);
        },
      });
      await expect(answer).rejects.toBe(reason);
      expect(told).toEqual(whole.slice(0, when));
    }
    // and nothing of it is left in what is asked next
    expect(await assessAsync(route, carried)).toEqual(assess(route, carried));
  });

  test('by a timer: it has its turn', async () => {
    restAlways();
    const stop = new AbortController();
    const later = setInterval(() => stop.abort('time is up'), 0);
    const many = Array.from({ length: 40 }, (_, i) => ({ ...carried[i % 6], run: `${i}` }));
    await expect(assessAsync(route, many, { signal: stop.signal })).rejects.toBe('time is up');
    clearInterval(later);
  });

  test('before it began: nothing is looked at', async () => {
    const recordings = { [Symbol.iterator]: () => expect.unreachable('it is looked at') };
    const answer = assessAsync(route, recordings as never, { signal: AbortSignal.abort('no') });
    await expect(answer).rejects.toBe('no');
  });
});

test('what assess refuses is refused as it does, by a promise', async () => {
  await expect(assessAsync(route, [])).rejects.toThrow('recordings must be at least 1 recording');
  await expect(assessAsync(route, carried, { leverArm: -1 })).rejects.toThrow('options.leverArm must be');
  const wrong = (options: object) => assessAsync(route, carried, options).catch((error) => error);
  for (const [options, message] of [
    [{ signal: 5 }, 'options.signal must be an AbortSignal, not 5'],
    [{ signal: null }, 'options.signal must be an AbortSignal, not null'],
    [{ onProgress: 'loud' }, "options.onProgress must be a function, not 'loud'"],
    [{ onprogress: () => {} }, 'Did you mean onProgress?'],
  ] as const) {
    const error = await wrong(options);
    expect(error).toBeInstanceOf(InputError);
    expect(error.message).toContain(message);
  }
});

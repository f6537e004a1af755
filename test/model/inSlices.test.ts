import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { finish, inSlices, type Progress, type Steps } from '../../src/model';

/** Work of so many steps of so many milliseconds on a clock that nothing else moves. */
let now = 0;
let pauses: number[] = [];
function* work(steps: number, each: number, left: { at?: number } = {}): Steps<string> {
  try {
    for (let i = 0; i < steps; i++) {
      now += each;
      left.at = i;
      yield i % 2 === 0 ? { done: i, of: steps, what: 'rows' } : undefined;
    }
    return 'all of it';
  } finally {
    if (left.at !== steps - 1) left.at = -1;
  }
}

beforeEach(() => {
  now = 0;
  pauses = [];
  vi.spyOn(performance, 'now').mockImplementation(() => now);
  vi.stubGlobal('setImmediate', (then: () => void) => {
    pauses.push(now);
    queueMicrotask(then);
  });
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

/** The longest stretch of work between two rests. */
const longest = () => Math.max(...pauses.map((at, i) => at - (pauses[i - 1] ?? 0)));

test('the result is that of the work done without a rest', async () => {
  expect(finish(work(7, 1))).toBe('all of it');
  expect(await inSlices(work(7, 1), {})).toBe('all of it');
});

test.each([
  [1000, 1],
  [300, 7],
  [100, 19],
  [50, 30],
])('%i steps of %i ms: no stretch is longer than 50 ms', async (steps, each) => {
  await inSlices(work(steps, each), {});
  expect(longest()).toBeLessThanOrEqual(50);
  // and no more rests than that takes
  expect(pauses.length).toBeLessThanOrEqual((steps * each) / 20);
});

test('a step that is longer than that is followed by a rest', async () => {
  await inSlices(work(9, 400), {});
  expect(pauses).toHaveLength(9);
});

test('time that passes in the rest is none of the work', async () => {
  vi.stubGlobal('setImmediate', (then: () => void) => {
    pauses.push(now);
    now += 5000;
    queueMicrotask(then);
  });
  await inSlices(work(100, 1), {});
  expect(pauses).toHaveLength(5);
});

test('what yields nothing is a rest, and no progress', async () => {
  const told: Progress[] = [];
  await inSlices(work(5, 1), { onProgress: (progress) => told.push(progress) });
  expect(told).toEqual([0, 2, 4].map((done) => ({ done, of: 5, what: 'rows' })));
});

describe('a signal', () => {
  test('aborted before: nothing is done', async () => {
    const left = {};
    const signal = AbortSignal.abort('too late');
    await expect(inSlices(work(5, 1, left), { signal })).rejects.toBe('too late');
    expect([now, left]).toEqual([0, {}]);
  });

  test.each([0, 2, 4, 98])('aborted when %i is told: no step more, and the work cleans up', async (when) => {
    const left: { at?: number } = {};
    const stop = new AbortController();
    const onProgress = vi.fn(({ done }: Progress) => {
      if (done === when) stop.abort(`at ${when}`);
    });
    const answer = inSlices(work(100, 30, left), { signal: stop.signal, onProgress });
    await expect(answer).rejects.toBe(`at ${when}`);
    expect([now, left.at]).toEqual([(when + 1) * 30, -1]);
    expect(onProgress).toHaveBeenCalledTimes(when / 2 + 1);
  });

  test('aborted in a rest: no step more', async () => {
    const stop = new AbortController();
    vi.stubGlobal('setImmediate', (then: () => void) => {
      pauses.push(now);
      if (pauses.length === 3) stop.abort();
      queueMicrotask(then);
    });
    const answer = inSlices(work(100, 25), { signal: stop.signal });
    await expect(answer).rejects.toMatchObject({ name: 'AbortError' });
    expect(now).toBe(75);
  });

  test('aborted when all is done: too late', async () => {
    const stop = new AbortController();
    expect(await inSlices(work(1, 1), { signal: stop.signal })).toBe('all of it');
    stop.abort();
  });
});

test('what the listener or the work throws is passed on', async () => {
  const left: { at?: number } = {};
  const onProgress = () => {
    throw new Error('the page is gone');
  };
  await expect(inSlices(work(5, 1, left), { onProgress })).rejects.toThrow('the page is gone');
  expect(left.at).toBe(-1);
  function* failing(): Steps<never> {
    yield;
    throw new TypeError('a fault of ours');
  }
  await expect(inSlices(failing(), {})).rejects.toThrow(new TypeError('a fault of ours'));
});

test('where there is no setImmediate, a message is waited for, and timers have had their turn', async () => {
  vi.unstubAllGlobals();
  const immediate = globalThis.setImmediate;
  vi.stubGlobal('setImmediate', undefined);
  const seen: string[] = [];
  setTimeout(() => seen.push('timer'), 0);
  await new Promise((resolve) => immediate(resolve));
  await inSlices(work(200, 25), {});
  seen.push('work');
  expect(seen).toEqual(['timer', 'work']);
});

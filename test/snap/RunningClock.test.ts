import { expect, test } from 'vitest';
import { RunningClock } from '../../src/snap/RunningClock';

/** Seconds after each of the times, given in seconds, when every fix moved 6 m at a pace of 2 m a second; those mistrusted. */
function run(times: readonly (number | undefined)[]) {
  const clock = new RunningClock();
  const seconds: number[] = [];
  const mistrusted: number[] = [];
  times.forEach((time, i) => {
    clock.take(time === undefined ? undefined : 1000 * time, i > 0 ? 6 : 0, 2);
    seconds.push(clock.seconds);
    if (clock.mistrusted === 1) mistrusted.push(i);
  });
  return { seconds, mistrusted };
}

test.each<[string, (number | undefined)[], number[], number[]]>([
  ['rises with the times', [100, 101, 105], [0, 1, 5], []],
  ['goes on at the pace without times, and by the times again', [100, undefined, undefined, 110], [0, 3, 6, 10], []],
  ['never runs back where the pace was ahead', [100, undefined, undefined, 102, 103], [0, 3, 6, 6, 7], []],
  ['without any time is the pace', [undefined, undefined, undefined], [0, 3, 6], []],
  ['does not believe a time that is no later', [100, 100, 99, 101], [0, 3, 6, 6], [1, 2]],
  ['believes the third of three that are early but rise', [100, 50, 51, 52, 53], [0, 3, 6, 9, 10], [1, 2, 3]],
  ['believes none of those that fall', [100, 99, 98, 97, 96], [0, 3, 6, 9, 12], [1, 2, 3, 4]],
  ['an hour later is an hour later', [100, 3700], [0, 3600], []],
])('%s', (_, times, seconds, mistrusted) => {
  expect(run(times)).toEqual({ seconds, mistrusted });
});

test('where nothing is known of the pace it is that of one who walks, 3 m a second', () => {
  const clock = new RunningClock();
  clock.take(undefined, 0, 0);
  clock.take(undefined, 12, 0);
  expect(clock.seconds).toBe(4);
});

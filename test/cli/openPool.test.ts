import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { mapInOrder } from '../../src/cli/mapInOrder';
import { openPool } from '../../src/cli/openPool';

const folder = mkdtempSync(join(tmpdir(), 'datumline pool '));
const file = pathToFileURL(join(folder, 'worker.mjs'));

beforeAll(() => {
  // doubles numbers, each thread saying which it is; is lost over words in the way they name
  writeFileSync(
    file,
    `import { parentPort, threadId } from 'node:worker_threads';
    parentPort.on('message', async ({ task }) => {
      if (task === 'throw') throw new Error('thrown');
      if (task === 'exit') process.exit(3);
      if (task === 'refuse') return parentPort.postMessage({ fault: 'refused' });
      if (task === 'wait') return;
      await new Promise((resolve) => setTimeout(resolve, (task * 7) % 5));
      parentPort.postMessage({ answer: { double: 2 * task, threadId } });
    });`,
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Answer {
  readonly double: number;
  readonly threadId: number;
}

test('answers come in the order asked, and no more threads are started than allowed', async () => {
  const pool = openPool(2, file);
  async function* questions() {
    for (let i = 0; i < 30; i++) yield i;
  }
  const answers: Answer[] = [];
  for await (const answer of mapInOrder(
    questions(),
    () => 4,
    (i) => pool.run<Answer>('line', i),
  ))
    answers.push(answer);
  expect(answers.map(({ double }) => double)).toEqual(Array.from({ length: 30 }, (_, i) => 2 * i));
  expect(new Set(answers.map(({ threadId }) => threadId)).size).toBe(2);
  await pool.close();
});

test('a thread is started for the first task, and one is enough while one task runs at a time', async () => {
  const pool = openPool(8, file);
  const threads = new Set<number>();
  for (let i = 0; i < 5; i++) threads.add((await pool.run<Answer>('line', i)).threadId);
  expect(threads.size).toBe(1);
  await pool.close();
});

test('a lost thread costs the task it was on and no other', async () => {
  const pool = openPool(2, file);
  const tasks = [1, 'throw', 2, 'exit', 3, 'refuse', 4, 5];
  const outcomes = await Promise.allSettled(tasks.map((task) => pool.run<Answer>('line', task)));
  expect(
    outcomes.map((outcome) => (outcome.status === 'fulfilled' ? outcome.value.double : outcome.reason.message)),
  ).toEqual([2, 'thrown', 4, 'a worker thread ended before it answered', 6, 'refused', 8, 10]);
  await pool.close();
});

test('closing ends what runs and what waits', async () => {
  const pool = openPool(1, file);
  const asked = ['wait', 1].map((task) => pool.run<Answer>('line', task));
  const outcomes = Promise.allSettled(asked);
  await pool.close();
  expect((await outcomes).map(({ status }) => status)).toEqual(['rejected', 'rejected']);
});

import { once } from 'node:events';
import { availableParallelism } from 'node:os';
import { createInterface } from 'node:readline';
import { answerLine, type LineTask } from './answerLine';
import type { CommandArguments } from './CommandArguments';
import { sentenceOf } from './explain';
import { mapInOrder } from './mapInOrder';
import { openPool, type Pool } from './openPool';
import { RouteShelf } from './RouteShelf';

/**
 * Milliseconds spent on answers before threads are started: what two of them cost to load and warm up. Few lines never start
 * any, and nobody can know how many will come.
 */
const WORTH_THREADS = 1300;

/** Answers every line of standard input with a line on standard output, in the same order, each as soon as it can be. */
export async function answerLines(command: LineTask['command'], { zone, threads }: CommandArguments): Promise<void> {
  // with nobody to read the answers, there is nothing more to do
  process.stdout.once('error', () => process.exit(0));
  const wanted = threads ?? availableParallelism();
  const routes = new RouteShelf();
  let spent = threads === undefined ? 0 : Number.POSITIVE_INFINITY;
  let pool: Pool | undefined;
  const answer = async (task: LineTask): Promise<string> => {
    if (wanted > 1 && spent > WORTH_THREADS) pool ??= openPool(wanted);
    if (pool) return pool.run<string>('line', task).catch(lost(task));
    const begun = performance.now();
    const line = await answerLine(task, routes);
    spent += performance.now() - begun;
    return line;
  };
  try {
    // twice as many lines as threads wait, so that no thread does
    for await (const line of mapInOrder(tasks(command, zone), () => (pool ? 2 * pool.threads : 1), answer)) {
      if (!process.stdout.write(`${line}\n`)) await once(process.stdout, 'drain');
    }
  } finally {
    await pool?.close();
  }
}

/** A line that its thread didn't survive. */
const lost = (task: LineTask) => (error: unknown) =>
  JSON.stringify({ line: task.number, error: { reason: 'failed', message: sentenceOf(error) } });

async function* tasks(command: LineTask['command'], zone: string | undefined): AsyncGenerator<LineTask> {
  let number = 0;
  for await (const text of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    number++;
    if (text.trim() !== '') yield { command, text, number, zone };
  }
}

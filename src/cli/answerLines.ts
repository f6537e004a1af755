import { availableParallelism } from 'node:os';
import { setImmediate } from 'node:timers/promises';
import { answerLine } from './answerLine';
import type { CommandArguments } from './CommandArguments';
import { failedLine } from './failedLine';
import type { LineAnswer, LineTask } from './LineTask';
import { lineObject } from './lineObject';
import { linesIn } from './linesIn';
import { mapInOrder } from './mapInOrder';
import { openPool, type Pool } from './openPool';
import { openSink } from './openSink';
import { RouteShelf } from './RouteShelf';

/**
 * Milliseconds spent on answers before threads are started: what two of them cost to load and warm up. Few lines never start
 * any, and nobody can know how many will come.
 */
const WORTH_THREADS = 1300;

/**
 * Answers every line of standard input with a line on standard output, in the same order, each as soon as it can be; with
 * `--out` they are in that file when all are there.
 */
export async function answerLines(
  command: LineTask['command'],
  { zone, threads, out, figures }: CommandArguments,
): Promise<'all' | 'not all'> {
  const sink = openSink(out);
  const wanted = threads ?? availableParallelism();
  const routes = new RouteShelf();
  let spent = threads === undefined ? 0 : Number.POSITIVE_INFINITY;
  let pool: Pool | undefined;
  let failed = false;
  const answer = async (task: LineTask): Promise<LineAnswer> => {
    if (wanted > 1 && spent > WORTH_THREADS) pool ??= openPool(wanted);
    if (pool) return pool.run<LineAnswer>('line', task).catch(lost(task));
    // files are read at once, and many lines come together: without this no interruption would be heard between them
    await setImmediate();
    const begun = performance.now();
    const line = await answerLine(task, routes);
    spent += performance.now() - begun;
    return line;
  };
  try {
    // twice as many lines as threads wait, so that no thread does
    const answers = mapInOrder(tasks({ command, zone, figures }), () => (pool ? 2 * pool.threads : 1), answer);
    for await (const { text, outcome } of answers) {
      failed ||= outcome === 'failed';
      await sink.write(`${text}\n`);
    }
    sink.finish();
  } finally {
    await pool?.close();
  }
  return failed ? 'not all' : 'all';
}

/** The answer to a line that its thread didn't survive. */
const lost =
  (task: LineTask) =>
  (error: unknown): LineAnswer => {
    try {
      return failedLine(task.number, lineObject(task), error);
    } catch (fault) {
      return failedLine(task.number, {}, fault);
    }
  };

async function* tasks(usual: Pick<LineTask, 'command' | 'zone' | 'figures'>): AsyncGenerator<LineTask> {
  for await (const line of linesIn()) yield { ...usual, ...line };
}

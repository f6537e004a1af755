import { cannot } from './CommandError';
import { failedLine } from './failedLine';
import { judgeTest } from './judgeTest';
import type { LineAnswer, LineTask } from './LineTask';
import { lineObject } from './lineObject';
import { lineTest } from './lineTest';
import { lostByReading } from './lostByReading';
import type { RouteShelf } from './RouteShelf';
import { snapLine } from './snapLine';

/** The line that answers a line: its number and what was asked, with what was found or with `error`. Never throws. */
export async function answerLine(task: LineTask, routes: RouteShelf): Promise<LineAnswer> {
  const line = task.number;
  let asked: Readonly<Record<string, unknown>> = {};
  try {
    asked = lineObject(task);
    const lost = lostByReading(task.text);
    if (lost !== undefined) throw cannot(`line ${line}`, lost);
    const found: object = await (task.command === 'assess'
      ? assessLine(asked, task, routes)
      : snapLine(asked, task, routes));
    const taken = ['line', ...Object.keys(found), 'error'].find((key) => Object.hasOwn(asked, key));
    if (taken !== undefined) throw cannot(`line ${line}`, `"${taken}" is a key of the answer: call yours otherwise`);
    return { text: JSON.stringify({ line, ...asked, ...found }), outcome: 'found' };
  } catch (error) {
    return failedLine(line, asked, error);
  }
}

async function assessLine(asked: Readonly<Record<string, unknown>>, task: LineTask, routes: RouteShelf) {
  const found = await judgeTest(await lineTest(asked, task, routes), task);
  if (asked.recording === undefined || task.figures === 'for combine') return found;
  // one recording: there is nothing to compare it with
  const { pairs: _, order: __, ...alone } = found as Record<string, unknown>;
  return alone;
}

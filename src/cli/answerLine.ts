import { likelyWord } from '../model';
import { answerText } from './answerText';
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
  let asked: Asked = {};
  try {
    asked = lineObject(task);
    const lost = lostByReading(task.text);
    if (lost !== undefined) throw cannot(`line ${line}`, lost);
    const found: Answer = await (task.command === 'assess'
      ? assessLine(asked, task, routes)
      : snapLine(asked, task, routes));
    const taken = ['line', ...Object.keys(found), 'error'].find((key) => Object.hasOwn(asked, key));
    if (taken !== undefined) throw cannot(`line ${line}`, `"${taken}" is a key of the answer: call yours otherwise`);
    const issues = [...found.issues, ...misspelt(asked, task.command)];
    return { text: answerText(line, { ...asked, ...found, issues }), outcome: 'found' };
  } catch (error) {
    return failedLine(line, asked, error);
  }
}

type Asked = Readonly<Record<string, unknown>>;

/** What was found, and what reading the line and its files met with. */
type Answer = { readonly issues: readonly object[] };

/** Keys that were likely meant for ones that a line of its form may have: as the user's own they stay. */
function misspelt(asked: Asked, command: LineTask['command']): object[] {
  const known = ['zone'];
  if (asked.recording !== undefined) known.push('receiver', 'placement', 'run');
  if (command === 'assess' && asked.test === undefined) known.push('areas');
  return Object.keys(asked).flatMap((key) => {
    const word = likelyWord(key, known);
    if (word === undefined || asked[word] !== undefined) return [];
    return { reason: 'misspelt-key', message: `"${key}" is taken for a key of your own: is "${word}" meant?` };
  });
}

async function assessLine(asked: Asked, task: LineTask, routes: RouteShelf): Promise<Answer> {
  const found = await judgeTest(await lineTest(asked, task, routes), task);
  if (asked.recording === undefined || task.figures === 'for combine') return found;
  // one recording: there is nothing to compare it with
  const { pairs: _, order: __, ...alone } = found;
  return alone;
}

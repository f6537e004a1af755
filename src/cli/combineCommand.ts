import { inSlices } from '../model';
import { type AssessedFigures, combineByRoute, FiguresShelf, readFigures, type TakenFigures } from '../runs';
import type { CommandArguments } from './CommandArguments';
import { cannot, wrongUsage } from './CommandError';
import { failedLine } from './failedLine';
import { lineObject } from './lineObject';
import { linesIn } from './linesIn';
import { openSink } from './openSink';

/** `datumline combine --ndjson`: assessments or their figures in, a summary a route out. */
export async function combineCommand({ files, ndjson, out, baseline }: CommandArguments): Promise<'all' | 'not all'> {
  if (files.length > 0 || ndjson === 'off') {
    throw wrongUsage('combine reads lines from standard input: datumline combine --ndjson < LINES', 'combine');
  }
  const sink = openSink(out);
  const shelf = new FiguresShelf();
  let failed = false;
  for await (const line of linesIn()) {
    const { number } = line;
    let asked: Readonly<Record<string, unknown>> = {};
    try {
      asked = lineObject(line);
      for (const figures of figuresIn(asked, number)) shelf.add(figures);
    } catch (error) {
      failed = true;
      await sink.write(`${failedLine(number, ownWords(asked), error).text}\n`);
    }
  }
  // in slices, as an interruption is heard between them
  for (const answer of await inSlices(combineByRoute(shelf.all, baseline === undefined ? {} : { baseline }), {})) {
    if ('summary' in answer) {
      await sink.write(`${JSON.stringify(answer.summary)}\n`);
      continue;
    }
    failed = true;
    const { line: _, ...answered } = JSON.parse(failedLine(0, { route: { hash: answer.hash } }, answer.fault).text);
    await sink.write(`${JSON.stringify(answered)}\n`);
  }
  sink.finish();
  return failed ? 'not all' : 'all';
}

/** An assessment, its figures, or an answer of `assess --ndjson --figures`, which holds those of each run. */
function figuresIn(asked: Readonly<Record<string, unknown>>, number: number): TakenFigures[] {
  if (asked.error !== undefined) {
    const { message } = (asked.error ?? {}) as { readonly message?: unknown };
    throw cannot(`line ${number}`, `an answer with an error: ${typeof message === 'string' ? message : 'unknown'}`);
  }
  if (asked.figures === undefined && Array.isArray(asked.rows) && asked.line !== undefined) {
    throw cannot(`line ${number}`, 'an answer without --figures');
  }
  if (asked.figures === undefined) return [readFigures(asked as unknown as AssessedFigures, 'assessment')];
  if (!Array.isArray(asked.figures)) throw cannot(`line ${number}`, '"figures" must be a list');
  return asked.figures.map((one: AssessedFigures) => readFigures(one, 'assessment'));
}

/** By which a line is known again, without the documents in it. */
function ownWords(asked: Readonly<Record<string, unknown>>): object {
  return Object.fromEntries(Object.entries(asked).filter(([, value]) => typeof value !== 'object'));
}

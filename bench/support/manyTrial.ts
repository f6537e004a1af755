import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type AssessedFigures, writeGpx } from 'datumline';
import { answerLine } from '../../src/cli/answerLine';
import type { LineTask } from '../../src/cli/LineTask';
import { RouteShelf } from '../../src/cli/RouteShelf';
import { finish } from '../../src/model';
import { combineByRoute, FiguresShelf, readFigures } from '../../src/runs';
import { windingRide } from './windingRide';

/** What a line costs. */
export interface LineCost {
  readonly recordings: number;
  /** Milliseconds of processor time a recording, the least of the lines: others at work on the machine only add to it. */
  readonly each: number;
  /** Bytes of a line and of its answer; of the files that it names. */
  readonly asked: number;
  readonly answered: number;
  readonly read: number;
}

/** What the reduce costs, a run of six recordings and ten sections. */
export interface ReduceCost {
  readonly runs: number;
  /** Milliseconds of processor time a run: read and kept; and then combined. */
  readonly keeping: number;
  readonly combining: number;
  /** Bytes of memory a run that is kept. */
  readonly kept: number;
}

export interface ManyTrial {
  /** One recording: all that was found, or what `combine` needs. */
  readonly alone: LineCost;
  readonly figures: LineCost;
  /** Six receivers that are compared. */
  readonly six: LineCost;
  readonly reduce: readonly ReduceCost[];
  /** Bytes that the process held at most. */
  readonly memory: number;
}

/** Lines before any is counted: thousands are to come. */
const WARM = 100;

/** Lines of `assess --ndjson` about recordings of so many seconds at 1 Hz in GPX, on one thread, the route kept; and the reduce. */
export async function manyTrial(seconds: number, rounds: number, runs: readonly number[]): Promise<ManyTrial> {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-many-'));
  try {
    const { route, recordings } = windingRide(3 * seconds);
    const file = join(folder, 'route.json');
    writeFileSync(file, JSON.stringify(route.recipe));
    const files = recordings.map((recording, i) => {
      const path = join(folder, `${i}.gpx`);
      writeFileSync(path, writeGpx(recording));
      return path;
    });
    const routes = new RouteShelf();
    const answers: string[] = [];
    const lineCost = async (
      figures: LineTask['figures'],
      asked: object,
      named: readonly string[],
    ): Promise<LineCost> => {
      const text = JSON.stringify({ key: 'a key of the user’s', ...asked });
      const times: number[] = [];
      let answered = 0;
      // the first ones load the route, and code is compiled while they run
      for (let round = rounds > 1 ? -WARM : -1; round < rounds; round++) {
        const begun = process.cpuUsage();
        const answer = await answerLine({ command: 'assess', text, number: 1, figures }, routes);
        const { user, system } = process.cpuUsage(begun);
        if (answer.outcome === 'failed') throw new Error(answer.text);
        answered = Buffer.byteLength(answer.text);
        if (round >= 0) times.push((user + system) / 1000 / named.length);
        if (round === rounds - 1) answers.push(answer.text);
      }
      const read = named.reduce((sum, path) => sum + statSync(path).size, 0);
      const each = Math.min(...times);
      return { recordings: named.length, each, asked: Buffer.byteLength(text), answered, read };
    };
    const one = { route: file, recording: files[0], receiver: 'receiver 1', run: 'run 1' };
    const alone = await lineCost('all', one, [files[0]]);
    const figures = await lineCost('for combine', one, [files[0]]);
    const listed = files.map((recording, i) => ({ recording, receiver: `receiver ${i + 1}`, run: 'run 1' }));
    const six = await lineCost('for combine', { route: file, recordings: listed }, files);
    const memory = process.resourceUsage().maxRSS * 1024;
    const answer = answers[answers.length - 1];
    return { alone, figures, six, memory, reduce: runs.map((count) => reduceCost(answer, count)) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function reduceCost(answer: string, runs: number): ReduceCost {
  const shelf = new FiguresShelf();
  globalThis.gc?.();
  const before = process.memoryUsage().heapUsed;
  const cpu = (begun: NodeJS.CpuUsage) => {
    const { user, system } = process.cpuUsage(begun);
    return (user + system) / 1000 / runs;
  };
  const reading = process.cpuUsage();
  for (let run = 0; run < runs; run++) {
    const { figures } = JSON.parse(answer.replaceAll('"run 1"', `"run ${run}"`)) as { figures: AssessedFigures[] };
    for (const one of figures) shelf.add(readFigures(one, 'figures'));
  }
  const keeping = cpu(reading);
  globalThis.gc?.();
  const kept = (process.memoryUsage().heapUsed - before) / runs;
  const begun = process.cpuUsage();
  const answers = finish(combineByRoute(shelf.all));
  if (answers.length !== 1 || 'fault' in answers[0]) throw new Error('expected one summary');
  return { runs, keeping, combining: cpu(begun), kept };
}

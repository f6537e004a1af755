import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { arch, cpus } from 'node:os';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { writeBetween } from '../../bench/support/writeBetween';
import { version } from '../../package.json';
import { calledNames } from './callCase';
import type { CaseOutcome } from './runCase';

/**
 * Changes documents, calls every public function with extreme arguments and holds laws on random input, case by case:
 * `npm run fuzz -- --count 1000000 [--seed N] [--resume]`. The same seed gives the same cases; `--resume` goes on where a
 * run with that seed was stopped. What is found is printed with its number, and `--case N` runs that one alone.
 *
 * A case that takes more than half a minute of the processor, or more than 512 MB, is found too, and the rest goes on without it. What the
 * last whole run did stands in `docs/fuzz.md`.
 */
interface State {
  readonly version: string;
  readonly seed: number;
  next: number;
  readonly cases: Record<string, number>;
  readonly found: ({ readonly case: number } & CaseOutcome)[];
  /** Cases that ended the thread they ran in. */
  readonly ended: number[];
  /** Cases that took longer than this many milliseconds. */
  slow: number;
  seconds: number;
}

/** Milliseconds of processor time: the machine may have other work. */
const LONGEST = 30_000;
const SLOW = 2000;
const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '10000' },
    seed: { type: 'string', default: '1' },
    resume: { type: 'boolean', default: false },
    case: { type: 'string' },
  },
});
const whole = (text: string, name: string) => {
  if (!/^\d{1,9}$/.test(text)) throw new Error(`--${name} must be a whole number, not ${text}`);
  return Number(text);
};
const seed = whole(values.seed, 'seed');
const folder = new URL('../../coverage/fuzz/', import.meta.url);
const file = new URL(`seed-${seed}.json`, folder);

if (values.case !== undefined) {
  const { runCase } = await import('./runCase');
  console.log(await runCase(seed, whole(values.case, 'case'), (name) => console.log(`calls ${name}`)));
} else await run(whole(values.count, 'count'));

async function run(count: number): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const begun: State = { version, seed, next: 0, cases: {}, found: [], ended: [], slow: 0, seconds: 0 };
  const state: State = values.resume && existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : begun;
  while (state.next < count) await stretch(state, count);
  save(state);
  report(state);
  if (state.found.length > 0) process.exitCode = 1;
}

/** Runs cases in a thread of their own until all are run, or one of them ends it. */
function stretch(state: State, count: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const at = new Int32Array(new SharedArrayBuffer(8)).fill(-1); // loading
    // a thread does not take over the loader of TypeScript
    const begin = "import('tsx/esm/api').then(({ register }) => { register(); return import(workerData.file); });";
    const worker = new Worker(`const { workerData } = require('node:worker_threads'); ${begin}`, {
      eval: true,
      workerData: {
        seed,
        from: state.next,
        to: count,
        ended: state.ended,
        at,
        file: new URL('runCases.ts', import.meta.url).href,
      },
      resourceLimits: { maxOldGenerationSizeMb: 512 },
    });
    const spent = () => process.cpuUsage().user / 1000;
    let since = 0;
    let seen = -1;
    let last = performance.now();
    const spoil = (fault: string) => {
      const [number, called] = at;
      found({ case: number, kind: 'call', name: calledNames[called] ?? 'any', fault });
      state.ended.push(number);
    };
    const found = (one: State['found'][number]) => {
      state.found.push(one);
      console.log(`case ${one.case}, ${one.kind} ${one.name}: ${one.fault}`);
    };
    const watch = setInterval(() => {
      if (at[0] !== seen) [seen, since] = [at[0], spent()];
      else if (seen >= 0 && spent() - since > LONGEST) {
        clearInterval(watch);
        spoil(`takes more than ${LONGEST / 1000} s`);
        void worker.terminate();
      }
    }, 500);
    worker.on('message', ({ next, cases, faults, slow }: Batch) => {
      for (const [name, times] of Object.entries(cases)) state.cases[name] = (state.cases[name] ?? 0) + times;
      for (const one of faults) found(one);
      state.slow += slow;
      state.next = next;
      const now = performance.now();
      state.seconds += (now - last) / 1000;
      last = now;
      save(state);
      if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${next} of ${count}, ${state.found.length} found`);
    });
    worker.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'ERR_WORKER_OUT_OF_MEMORY') spoil('takes more than 512 MB');
      else reject(error);
    });
    worker.on('exit', () => {
      clearInterval(watch);
      resolve();
    });
  });
}

/** Written beside and renamed: a run that is stopped leaves a whole one. */
function save(state: State): void {
  const beside = new URL(`${file.href}.part`);
  writeFileSync(beside, `${JSON.stringify(state, null, 1)}\n`);
  renameSync(beside, file);
}

function report(state: State): void {
  const processor = cpus()[0]?.model.trim() || 'unknown processor';
  const total = (kind: string) =>
    Object.entries(state.cases).reduce((sum, [name, times]) => sum + (name.startsWith(kind) ? times : 0), 0);
  const functions = Object.keys(state.cases).filter((name) => name.startsWith('call ')).length;
  const rows = [
    ['documents changed, then read, some written and read again', total('document')],
    [`calls of ${functions} public functions and methods with extreme arguments`, total('call')],
    ['laws held on random lines, routes and recordings', total('invariant')],
  ] as const;
  const faults = (kind: string) => state.found.filter((one) => one.kind === kind).length;
  const kinds = ['document', 'call', 'invariant'];
  const table = rows.map(([what, times], k) => `| ${what} | ${times} | ${faults(kinds[k])} |`);
  const text = [
    `Version ${state.version}, Node ${process.version}, ${arch()}, ${cpus().length} × ${processor}; seed ${seed}, ` +
      `${state.next} cases in ${Math.round(state.seconds / 60)} min; ${state.slow} took more than ${SLOW / 1000} s of the processor, none that is not counted as found more than ${LONGEST / 1000} s:`,
    '',
    '| | cases | found |',
    '| --- | ---: | ---: |',
    ...table,
  ].join('\n');
  console.log(text);
  const page = new URL('../../docs/fuzz.md', import.meta.url);
  writeFileSync(page, writeBetween(readFileSync(page, 'utf8'), 'fuzz', text));
}

interface Batch {
  readonly next: number;
  readonly cases: Record<string, number>;
  readonly faults: State['found'];
  readonly slow: number;
}

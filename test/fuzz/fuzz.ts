import { fork } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { arch, cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { writeBetween } from '../../bench/support/writeBetween';
import { version } from '../../package.json';
import { calledNames } from './callCase';
import type { Batch, Stretch } from './runCases';

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
  readonly found: Batch['faults'][number][];
  /** Cases that ended the process they ran in. */
  readonly ended: number[];
  /** Cases that took longer than this many milliseconds. */
  slow: number;
  seconds: number;
}

/** Milliseconds of processor time: the machine may have other work. */
const LONGEST = 30_000;
const SLOW = 2000;
/** Megabytes of the heap. */
const MOST_MEMORY = 512;
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

/** Runs cases in a process of their own until all are run, or one of them ends it. */
function stretch(state: State, count: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const at = fileURLToPath(new URL(`seed-${seed}.at`, folder));
    writeFileSync(at, new Int32Array([-1, -1])); // loading
    const child = fork(fileURLToPath(new URL('runCases.ts', import.meta.url)), {
      execArgv: ['--import', 'tsx', `--max-old-space-size=${MOST_MEMORY}`],
      stdio: ['ignore', 'inherit', 'pipe', 'ipc'],
    });
    const { next: from, ended } = state;
    child.send({ seed, from, to: count, ended, at } satisfies Stretch);
    let said = '';
    child.stderr!.on('data', (chunk) => (said = `${said}${chunk}`.slice(-10_000)));
    const place = () => new Int32Array(new Uint8Array(readFileSync(at)).buffer);
    let since = 0;
    let seen = -1;
    let slowest = false;
    let last = performance.now();
    const found = (one: Batch['faults'][number]) => {
      state.found.push(one);
      console.log(`case ${one.case}, ${one.kind} ${one.name}: ${one.fault}`);
    };
    const watch = setInterval(() => {
      const [number] = place();
      if (number !== seen) [seen, since] = [number, processorTime(child.pid!)];
      else if (seen >= 0 && processorTime(child.pid!) - since > LONGEST) {
        slowest = true;
        child.kill('SIGKILL');
      }
    }, 500);
    child.on('message', ({ next, cases, faults, slow }: Batch) => {
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
    child.on('error', reject);
    child.on('close', (status) => {
      clearInterval(watch);
      if (status === 0) return resolve();
      const [number, called] = place();
      const memory = /heap out of memory|allocation failed/i.test(said);
      if (number < 0 || !(slowest || memory)) return reject(new Error(said || 'it was ended'));
      const fault = slowest ? `takes more than ${LONGEST / 1000} s` : `takes more than ${MOST_MEMORY} MB`;
      found({ case: number, kind: 'call', name: calledNames[called] ?? 'any', fault });
      state.ended.push(number);
      resolve();
    });
  });
}

/** Milliseconds of processor time that a process has taken: where the system doesn't tell, of the clock. */
function processorTime(pid: number): number {
  try {
    // fields 14 and 15 of `proc(5)`, in hundredths of a second; the name in field 2 may hold blanks
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
      .replace(/^.*\) /s, '')
      .split(' ');
    return 10 * (Number(fields[11]) + Number(fields[12]));
  } catch {
    return performance.now();
  }
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

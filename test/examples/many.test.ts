import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { routeFromLine } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, commandFile } from '../support/commandLine';

const script = fileURLToPath(new URL('../../examples/many/judge.sh', import.meta.url));
const parallel = spawnSync('parallel', ['--version']).status === 0;
if (!parallel) console.log('No GNU parallel here: the test of 2 000 recordings is skipped.');

const RECORDINGS = 2000;
const folder = mkdtempSync(join(tmpdir(), 'datumline parallel '));
const parts = join(folder, 'out', 'parts');

beforeAll(async () => {
  await buildCommand(folder);
  const command = join(folder, 'datumline');
  writeFileSync(command, `#!/bin/sh\nexec "${process.execPath}" "${commandFile}" "$@"\n`);
  chmodSync(command, 0o755);
  const route = routeFromLine([
    [2.1, 61.4],
    [2.102, 61.4],
  ]);
  writeFileSync(join(folder, 'route.json'), JSON.stringify(route.recipe));
  mkdirSync(join(folder, 'recordings'));
  const lines = Array.from({ length: RECORDINGS }, (_, id) => {
    const rows = Array.from(
      { length: 21 },
      (_, k) => `${(2.1 + k / 1e4).toFixed(6)},${(61.4 + (1 + (id % 7)) / 1e5).toFixed(6)}`,
    );
    writeFileSync(join(folder, 'recordings', `${id}.csv`), `lon,lat\n${rows.join('\n')}\n`);
    return JSON.stringify({
      id,
      route: 'route.json',
      // one that cannot be judged, too, is answered once
      recording: id === 1234 ? 'missing.csv' : `recordings/${id}.csv`,
      receiver: 'A',
      run: `run ${id}`,
    });
  });
  writeFileSync(join(folder, 'lines.ndjson'), `${lines.join('\n')}\n`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function judge() {
  return spawn('bash', [script, 'lines.ndjson', 'out', '--jobs', '2'], {
    cwd: folder,
    detached: true,
    stdio: 'ignore',
    env: { ...process.env, DATUMLINE: join(folder, 'datumline'), BLOCK: '200' },
  });
}

/** Workers amid a part: the file that each writes beside its place has its process in its name. */
function workers(): number[] {
  if (!existsSync(parts)) return [];
  return readdirSync(parts).flatMap((name) => (name.startsWith('.datumline-') ? [Number(name.split('-')[1])] : []));
}
function partsThere(): string[] {
  return existsSync(parts) ? readdirSync(parts).filter((name) => name.endsWith('.ndjson')) : [];
}
const answersIn = (names: readonly string[]) =>
  names.flatMap((name) => {
    const text = readFileSync(join(parts, name), 'utf8');
    expect(text.endsWith('\n')).toBe(true);
    return text
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
  });
async function until(met: () => boolean): Promise<void> {
  const end = Date.now() + 120_000;
  while (!met() && Date.now() < end) await new Promise((resolve) => setTimeout(resolve, 5));
  expect(met()).toBe(true);
}

test.skipIf(!parallel)(
  'of 2 000 recordings each is answered exactly once, though a worker and then all were killed amid their work',
  async () => {
    const first = judge();
    await until(() => workers().length > 0);
    process.kill(workers()[0], 'SIGKILL');
    await until(() => partsThere().length >= 3 && workers().length > 0);
    process.kill(-first.pid!, 'SIGKILL');
    await once(first, 'close');
    for (const worker of workers()) {
      try {
        process.kill(worker, 'SIGKILL');
      } catch {
        // gone with the others, or killed before
      }
    }
    const before = partsThere();
    expect(before.length).toBeLessThan(RECORDINGS / 200);
    // what is there is whole
    expect(answersIn(before)).toHaveLength(200 * before.length);
    const kept = new Map(before.map((name) => [name, readFileSync(join(parts, name), 'utf8')]));

    // a line could not be judged: the reduce says so
    expect(await once(judge(), 'close')).toEqual([3, null]);
    for (const [name, text] of kept) expect(readFileSync(join(parts, name), 'utf8')).toBe(text);
    const answers = answersIn(partsThere());
    expect(answers.map(({ id }) => id).sort((a, b) => a - b)).toEqual(
      Array.from({ length: RECORDINGS }, (_, id) => id),
    );
    expect(answers.filter(({ error }) => error).map(({ id, line }) => [id, line])).toEqual([[1234, 35]]);
    const reduced = readFileSync(join(folder, 'out', 'summaries.ndjson'), 'utf8')
      .trimEnd()
      .split('\n');
    expect(reduced.map((line) => JSON.parse(line).runs?.length ?? JSON.parse(line).id)).toEqual([1234, RECORDINGS - 1]);
  },
  300_000,
);

// 2026-11-29: status 1 and a complaint of cat
test.runIf(parallel)('lines without a line are told', () => {
  writeFileSync(join(folder, 'none.ndjson'), '');
  const { status, stderr } = spawnSync('bash', [script, 'none.ndjson', 'none'], { cwd: folder, encoding: 'utf8' });
  expect({ status, stderr }).toEqual({ status: 1, stderr: 'judge.sh: none.ndjson: there is no line in it\n' });
});

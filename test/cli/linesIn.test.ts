import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, openSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { direct, routeBuilder } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, commandFile } from '../support/commandLine';

const folder = mkdtempSync(join(tmpdir(), 'datumline lines '));
beforeAll(async () => {
  await buildCommand(folder);
  const { recipe } = routeBuilder().start([2.1, 61.4]).lineBy({ azimuth: 90, distance: 200 }).build();
  writeFileSync(join(folder, 'route.json'), JSON.stringify(recipe));
  const fixes = Array.from({ length: 200 }, (_, i) => direct([2.1, 61.4], 90, i).position.join());
  writeFileSync(join(folder, 'ride.csv'), `lon,lat\n${fixes.join('\n')}\n`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Answers to what comes in such pieces. */
async function ask(pieces: Iterable<Uint8Array>, words: readonly string[] = ['assess', '--ndjson']) {
  const child = spawn(process.execPath, [commandFile, ...words], { cwd: folder });
  const printed = { stdout: '', stderr: '' };
  child.stdout.on('data', (chunk) => (printed.stdout += chunk));
  child.stderr.on('data', (chunk) => (printed.stderr += chunk));
  for (const piece of pieces) if (!child.stdin.write(piece)) await once(child.stdin, 'drain');
  child.stdin.end();
  const [status] = await once(child, 'close');
  // biome-ignore lint/suspicious/noExplicitAny: answers are looked into at will
  const answers: any[] = printed.stdout.split('\n').flatMap((line) => (line === '' ? [] : [JSON.parse(line)]));
  return { status, stderr: printed.stderr, answers };
}

test('each line is answered once with its number, however it ends and wherever it is cut', async () => {
  const line = (key: string) => `{"key":"${key}","route":"route.json"}`;
  const text = `\ufeff${line('a')}\n\n${line('b')}\r\n  \n${line('ü\u2028')}\n{"key":\r"c"}\n${line('d')}`;
  const { answers } = await ask(Array.from(Buffer.from(text), (byte) => Uint8Array.of(byte)));
  expect(answers.map(({ line, key }) => [line, key])).toEqual([
    [1, 'a'],
    [3, 'b'],
    [5, 'ü\u2028'],
    [6, 'c'],
    [7, 'd'],
  ]);
});

test('a line that is not UTF-8, or says something twice, is answered so; its key comes back where it could be read', async () => {
  const { status, answers } = await ask([
    Buffer.from('{"route":"'),
    Uint8Array.of(0xfc),
    Buffer.from('.json"}\n{"key":7,"route":"route.json","route":"other.json"}\n{"key":12345678901234567890}\n'),
  ]);
  expect(status).toBe(3);
  expect(answers).toEqual([
    { line: 1, error: { reason: 'unreadable', message: 'line 1: not UTF-8' } },
    {
      line: 2,
      key: 7,
      route: 'other.json',
      error: { reason: 'unreadable', message: 'line 2: the key "route" stands twice in one object' },
    },
    { line: 3, key: expect.any(Number), error: { reason: 'unreadable', message: expect.stringContaining('line 3: ') } },
  ]);
});

test('a line longer than any string is refused alone', async () => {
  const much = Buffer.alloc(2 ** 20, 'x');
  function* pieces() {
    for (let k = 0; k < 600; k++) yield much;
    yield Buffer.from('\nrubbish\n');
  }
  const { status, stderr, answers } = await ask(pieces(), ['combine', '--ndjson']);
  expect({ status, stderr }).toEqual({ status: 3, stderr: '' });
  expect(answers.map(({ line, error }) => [line, error.message])).toEqual([
    [1, 'line 1: more than 268435456 bytes'],
    [2, 'line 2: not valid JSON at line 1, column 1'],
  ]);
});

test('lines that cannot be read on are told, and no file is put in place', async () => {
  const child = spawn(process.execPath, [commandFile, 'assess', '--ndjson', '--out', 'answers.ndjson'], {
    cwd: folder,
    stdio: [openSync(join(folder, 'written to'), 'w'), 'pipe', 'pipe'],
  });
  let told = '';
  child.stderr!.on('data', (chunk) => (told += chunk));
  expect(await once(child, 'close')).toEqual([1, null]);
  expect(told).toMatch(/^datumline: standard input: EBADF/);
  expect(readdirSync(folder).filter((name) => /answers|\.datumline/.test(name))).toEqual([]);
});

// 2026-11-29: status 0 and no word
test('a folder in place of lines is told', async () => {
  const child = spawn(process.execPath, [commandFile, 'assess', '--ndjson'], {
    cwd: folder,
    stdio: [openSync(folder, 'r'), 'pipe', 'pipe'],
  });
  let told = '';
  child.stderr!.on('data', (chunk) => (told += chunk));
  expect(await once(child, 'close')).toEqual([1, null]);
  expect(told).toBe('datumline: standard input: is a folder, not a file\n');
});

// 2026-11-29: of lines that came together, all were answered before a signal was heard
test.each(['SIGINT', 'SIGKILL'] as const)(
  '%s is heard between two lines of many that came together',
  async (signal) => {
    const line = '{"route":"route.json","recording":"ride.csv"}\n';
    const file = join(folder, 'lines.ndjson');
    writeFileSync(file, line.repeat(1400));
    const child = spawn(
      process.execPath,
      [commandFile, 'assess', '--ndjson', '--threads', '1', '--out', `${signal}.ndjson`],
      {
        cwd: folder,
        stdio: [openSync(file, 'r'), 'ignore', 'ignore'],
      },
    );
    const beside = () => readdirSync(folder).find((name) => name.startsWith('.datumline-'));
    const written = () => {
      const name = beside();
      return name === undefined ? undefined : statSync(join(folder, name), { throwIfNoEntry: false })?.size;
    };
    const until = async (met: () => boolean) => {
      for (let k = 0; k < 6000 && !met(); k++) await new Promise((resolve) => setTimeout(resolve, 5));
      expect(met()).toBe(true);
    };
    await until(() => (written() ?? 0) > 0);
    const first = readFileSync(join(folder, beside()!), 'utf8').split('\n', 1)[0].length;
    child.kill(signal);
    let answers = 0;
    await until(() => {
      const bytes = written();
      answers = Math.max(answers, (bytes ?? 0) / first);
      return bytes === undefined;
    });
    // 1400 lines of 46 bytes come in one piece, and each is read and judged at once
    expect(answers).toBeLessThan(350);
    expect(readdirSync(folder)).not.toContain(`${signal}.ndjson`);
  },
);

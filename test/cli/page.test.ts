import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, commandFile, type Outcome } from '../support/commandLine';

/** What the page is, is tested beside it: here any text stands for it, where the command looks for it. */
const content = `<!doctype html>\n<title>“page”</title>\n${'x'.repeat(200_000)}\n`;
const folder = mkdtempSync(join(tmpdir(), 'datumline page '));
const inFolder = (name: string) => join(folder, name);
let run: (words: readonly string[]) => Promise<Outcome>;

beforeAll(async () => {
  run = await buildCommand(folder);
  writeFileSync(join(dirname(commandFile), 'page.html'), content);
});
afterAll(() => {
  spawnSync('umount', [inFolder('tiny')], { stdio: 'ignore' });
  rmSync(folder, { recursive: true, force: true });
});

test('--out writes the page, over one that is there too', async () => {
  writeFileSync(inFolder('page.html'), 'of before');
  expect(await run(['page', '--out', 'page.html'])).toEqual({
    status: 0,
    stdout: 'written: page.html\n',
    stderr: '',
  });
  expect(readFileSync(inFolder('page.html'), 'utf8')).toBe(content);
});

test('a missing folder, a folder in its place, a full disk: one sentence, status 1, nothing half written', async () => {
  mkdirSync(inFolder('tiny'));
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', inFolder('tiny')]).status === 0;
  const cases = [
    ['nowhere/page.html', 'nowhere/page.html: no such file or folder'],
    ['.', '.: is a folder, not a file'],
    ...(mounted ? [['tiny/page.html', 'tiny/page.html: no space left on the disk']] : []),
  ];
  for (const [out, sentence] of cases) {
    expect(await run(['page', '--out', out])).toEqual({ status: 1, stdout: '', stderr: `datumline: ${sentence}\n` });
  }
  expect(existsSync(inFolder('tiny/page.html'))).toBe(false);
});

test('--serve offers it to this machine alone until it is interrupted, with the status of that', async () => {
  const child = spawn(process.execPath, [commandFile, 'page', '--serve'], { cwd: folder });
  let stderr = '';
  child.stderr.on('data', (chunk) => (stderr += chunk));
  const [first] = (await once(child.stdout, 'data')) as [Buffer];
  const [, address] = /^(http:\/\/127\.0\.0\.1:\d+\/)\nCtrl\+C ends it\.\n$/.exec(String(first))!;
  const answer = await fetch(address);
  expect(answer.status).toBe(200);
  expect(answer.headers.get('content-type')).toBe('text/html; charset=utf-8');
  expect(await answer.text()).toBe(content);
  expect((await fetch(`${address}../package.json`)).status).toBe(404);
  expect((await fetch(address, { method: 'POST' })).status).toBe(404);
  child.kill('SIGINT');
  const [status] = await once(child, 'close');
  expect(status).toBe(130);
  expect(stderr).toBe('datumline: interrupted; files are written whole or not at all\n');
});

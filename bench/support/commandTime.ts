import { execFileSync } from 'node:child_process';

/** Milliseconds of processor time, user and system, that a command and what it starts take, by the shell's own account. */
export function commandTime(words: readonly string[]): number {
  const script = '"$@" >/dev/null 2>&1 || test $? -eq 3 || exit 1; times';
  const said = execFileSync('sh', ['-c', script, 'sh', process.execPath, ...words], { encoding: 'utf8' });
  const [user, system] = said
    .trim()
    .split('\n')[1]
    .match(/\d+m[\d.]+(?=s)/g)!;
  const milliseconds = (text: string) => 60_000 * Number.parseInt(text, 10) + 1000 * Number(text.split('m')[1]);
  return milliseconds(user) + milliseconds(system);
}

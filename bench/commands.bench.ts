import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Bench, BenchRow } from './support/Bench';
import { commandTime } from './support/commandTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';
import { warmTime } from './support/warmTime';

/** What a user waits for at the shell: the built command, from the start of the process to its end. */
export const run: Bench = ({ smoke }) => {
  const root = fileURLToPath(new URL('..', import.meta.url));
  const cli = join(root, 'dist/cli.js');
  if (!existsSync(cli)) throw new Error('there is no dist: npm run build first');
  const folder = mkdtempSync(join(tmpdir(), 'datumline-commands-'));
  try {
    const commands: readonly (readonly [what: string, words: readonly string[], most: number])[] = [
      ['--version', ['--version'], 100],
      ['route FILE, of 2.2 km', ['route', join(root, 'examples/demo/route.json')], 200],
      [
        "assess, the demo's nine recordings, to report on disk",
        ['assess', join(root, 'examples/demo/test.json'), '--out', join(folder, 'out')],
        800,
      ],
    ];
    const times = new Map<string, number[]>([['node', []], ...commands.map(([what]) => [what, []] as [string, []])]);
    for (let round = 0; round < (smoke ? 1 : 7); round++) {
      times.get('node')!.push(commandTime(['-e', '0']));
      for (const [what, words] of commands) {
        rmSync(join(folder, 'out'), { recursive: true, force: true });
        times.get(what)!.push(commandTime([cli, ...words]));
      }
    }
    const median = (what: string) => times.get(what)!.sort((a, b) => a - b)[times.get(what)!.length >> 1];
    const bare = { name: 'node that does nothing', time: showTime(median('node')) };
    const warm = showTime(warmTime(join(root, 'examples/demo'), smoke ? 1 : 12));
    return commands.map(
      ([what, , most], i): BenchRow => ({
        what: `datumline ${what}: processor time of all its threads`,
        ...promised(median(what), most),
        peers: i < 2 ? [bare] : [bare, { name: 'the same work in a process that has done it often', time: warm }],
      }),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

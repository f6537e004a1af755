import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { areasFromGeoJson, assess, combine, readGpx, routeFromRecipe, type TestFile } from 'datumline';
import { reportHtml, toCsv, toGeoJson } from 'datumline/report';
import type { Bench, BenchRow } from './support/Bench';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

/** Milliseconds of processor time, user and system, that a command and what it starts take, by the shell's own account. */
function commandTime(words: readonly string[]): number {
  const script = '"$@" >/dev/null 2>&1 || test $? -eq 3 || exit 1; times';
  const said = execFileSync('sh', ['-c', script, 'sh', process.execPath, ...words], { encoding: 'utf8' });
  const [user, system] = said
    .trim()
    .split('\n')[1]
    .match(/\d+m[\d.]+(?=s)/g)!;
  const milliseconds = (text: string) => 60_000 * Number.parseInt(text, 10) + 1000 * Number(text.split('m')[1]);
  return milliseconds(user) + milliseconds(system);
}

/** Milliseconds of processor time of the demo's work once more, after some rounds of it: what is left where no code is new. */
function warmTime(folder: string, rounds: number): number {
  const read = (file: string) => readFileSync(join(folder, file), 'utf8');
  const test: TestFile = JSON.parse(read('test.json'));
  const areas = areasFromGeoJson(JSON.parse(read(test.areas!)));
  const route = routeFromRecipe(JSON.parse(read('route.json')));
  const times = Array.from({ length: rounds }, () => {
    const begun = process.cpuUsage();
    const assessments = test.runs.map(({ name: run, recordings }) =>
      assess(
        route,
        recordings.map(({ file, receiver }) => ({ recording: readGpx(read(file))[0], receiver, run })),
        { areas },
      ),
    );
    const summary = combine(assessments);
    const written = [reportHtml(assessments), JSON.stringify([assessments, summary])];
    for (const assessment of assessments) written.push(toCsv(assessment), JSON.stringify(toGeoJson(assessment)));
    const { user, system } = process.cpuUsage(begun);
    return (user + system) / 1000;
  });
  return Math.min(...times);
}

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

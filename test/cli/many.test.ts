import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { assess, combine, direct, type Recording, routeBuilder, runFigures, writeGpx } from 'datumline';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { buildCommand, commandFile, type Outcome } from '../support/commandLine';
import { schemaJudge } from '../support/schemaJudge';

const folder = mkdtempSync(join(tmpdir(), 'datumline many '));
const start: [number, number] = [2.1, 61.4];
const quay = (metres: number) =>
  routeBuilder({ name: `quay ${metres}` })
    .start(start)
    .section('west', { halfWidth: 6 })
    .lineTo(direct(start, 90, metres / 2).position)
    .section('east', { halfWidth: 6 })
    .lineTo(direct(start, 90, metres).position)
    .build();
const [route, longer] = [quay(400), quay(420)];

/** By receiver and run; the files are named so. */
const offsets = { 'A-1': 1, 'B-1': 5, 'A-2': 1.3, 'B-2': 4.6, 'A-3': 0.8, 'B-3': 5.2 } as const;
const recorded = (name: keyof typeof offsets, of = route): Recording =>
  besideRoute(
    of,
    name,
    steadyFixes({ from: 0, to: of.length }, (s) => offsets[name] + 0.4 * Math.sin(s / 13)),
  );
const entry = (name: keyof typeof offsets) => ({
  recording: recorded(name),
  receiver: name[0],
  placement: name === 'A-2' || name === 'B-1' || name === 'B-3' ? 'left' : 'right',
  run: `day ${name[2]}`,
});
const names = Object.keys(offsets) as (keyof typeof offsets)[];

let run: (words: readonly string[], input?: string) => Promise<Outcome>;
beforeAll(async () => {
  run = await buildCommand(folder);
  mkdirSync(join(folder, 'spring'));
  writeFileSync(join(folder, 'route.json'), JSON.stringify(route.recipe));
  writeFileSync(join(folder, 'longer.json'), JSON.stringify(longer.recipe));
  for (const name of names) {
    writeFileSync(join(folder, `${name}.gpx`), writeGpx(recorded(name)));
    writeFileSync(join(folder, `${name}-longer.gpx`), writeGpx(recorded(name, longer)));
  }
  writeFileSync(join(folder, 'spring', 'test.json'), JSON.stringify(testFile('..')));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const testFile = (from: string, days = [1, 2, 3]) => ({
  version: 1,
  route: join(from, 'route.json'),
  runs: days.map((day) => ({
    name: `day ${day}`,
    recordings: names
      .filter((name) => name.endsWith(`${day}`))
      .map((name) => ({ file: join(from, `${name}.gpx`), receiver: name[0], placement: entry(name).placement })),
  })),
});
const listed = (which = names, suffix = '') =>
  which.map((name) => {
    const { recording: _, ...made } = entry(name);
    return { recording: `${name}${suffix}.gpx`, ...made };
  });

// biome-ignore lint/suspicious/noExplicitAny: answers are looked into at will
type Answer = any;
async function ask(words: readonly string[], lines: readonly unknown[]) {
  const { status, stdout, stderr } = await run(
    words,
    lines.map((line) => `${typeof line === 'string' ? line : JSON.stringify(line)}\n`).join(''),
  );
  const text = stdout.trimEnd();
  return {
    status,
    stderr,
    stdout,
    answers: text === '' ? [] : text.split('\n').map((line): Answer => JSON.parse(line)),
  };
}

/** Through a file the places are those that it can hold. */
const near = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value), (_, one) => (typeof one === 'number' ? Number(one.toPrecision(4)) : one));

describe('whole tests by line', () => {
  test('several recordings of a route are compared, run by run, and over the runs', async () => {
    const { status, stderr, answers } = await ask(
      ['assess', '--ndjson'],
      [{ route: 'route.json', recordings: listed(), key: 'spring' }],
    );
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const [answer] = answers;
    expect(answer).toMatchObject({ line: 1, key: 'spring', recordings: listed(), issues: [] });
    const assessments = [1, 2, 3].map((day) =>
      assess(route, names.filter((name) => name.endsWith(`${day}`)).map(entry)),
    );
    for (const list of ['rows', 'pairs', 'order', 'excursions'] as const) {
      const expected = assessments.reduce((sum, one) => sum + one[list].length, 0);
      expect(answer[list].length, list).toBe(expected);
      if (list !== 'excursions') expect(answer[list].length, list).toBeGreaterThan(0);
    }
    const whole = (list: Answer[]) => list.filter(({ section }) => section === null);
    expect(near(whole(answer.rows).map(({ run: day, meanAbsolute }) => [day, meanAbsolute]))).toEqual(
      near(
        assessments.flatMap((one, i) => whole([...one.rows]).map(({ meanAbsolute }) => [`day ${i + 1}`, meanAbsolute])),
      ),
    );
    expect(whole(answer.pairs).map(({ run: day, verdict, closer }) => [day, verdict, closer])).toEqual(
      [1, 2, 3].map((day) => [`day ${day}`, 'closer', `A-${day}`]),
    );
    const summary = combine(assessments);
    expect(answer.summary.pairs.map(({ verdict, closer }: Answer) => [verdict, closer])).toEqual(
      summary.pairs.map(({ verdict, closer }) => [verdict, closer]),
    );
    expect(schemaJudge('testSummary')(answer.summary)).toEqual([]);
    expect(answer.hash).toBe(answer.summary.method.hash);
  });

  test('a test is taken by its file, whose names are relative to it, or as it is', async () => {
    const { status, answers } = await ask(
      ['assess', '--ndjson'],
      [{ test: 'spring/test.json', id: 1 }, { test: testFile('.'), id: 2 }, { test: testFile('.', [1]) }],
    );
    expect(status).toBe(0);
    const [byFile, asObject, single] = answers;
    expect(byFile).toMatchObject({ line: 1, id: 1, test: 'spring/test.json' });
    expect(asObject).toMatchObject({ line: 2, id: 2, test: testFile('.') });
    for (const list of ['rows', 'pairs', 'order', 'excursions', 'summary', 'warnings', 'hash']) {
      expect(asObject[list]).toEqual(byFile[list]);
    }
    expect(byFile.summary.runs.map(({ name }: Answer) => name)).toEqual(['day 1', 'day 2', 'day 3']);
    expect(single.summary).toBeUndefined();
    expect(single.pairs).toEqual(byFile.pairs.filter(({ run: day }: Answer) => day === 'day 1'));
  });

  test('options, truth and exclusions of a test count', async () => {
    const base = testFile('.', [1, 2]);
    const asked = {
      ...base,
      options: { baseline: 'B', leverArm: 0.2 },
      exclusions: [{ section: 'east', reason: 'a gate' }],
      runs: base.runs.map((one, i) => (i === 0 ? { ...one, truth: 'A-1.gpx' } : one)),
    };
    const { status, answers } = await ask(['assess', '--ndjson'], [{ test: asked }]);
    expect(status).toBe(0);
    expect(answers[0].summary.baseline).toBe('B');
    expect(answers[0].warnings.map(({ reason }: Answer) => reason)).toContain('excluded');
    expect(answers[0].timed.map(({ run: day, rows }: Answer) => [day, rows.length > 0])).toEqual([['day 1', true]]);
  });

  test('what is wrong with a line is said in its answer, and the others stand', async () => {
    const good = { route: 'route.json', recording: 'A-1.gpx' };
    const { status, stderr, answers } = await ask(
      ['assess', '--ndjson'],
      [
        { ...good, id: 'a' },
        'rubbish',
        { route: 'route.json', recordings: [...listed(), { recording: 'missing.gpx' }], id: 'c' },
        { test: 'missing.json', id: 'd' },
        { test: { ...testFile('.'), runs: [] }, id: 'e' },
        { test: { ...testFile('.'), options: { baseline: 'Z' } }, id: 'f' },
        { route: 'route.json', recordings: [] },
        { route: 'route.json', recordings: [{ recording: 'A-1.gpx', reciever: 'A' }] },
        { route: 'route.json', recordings: ['A-1.gpx'] },
        { ...good, test: 'spring/test.json' },
        { route: 'route.json', test: 'spring/test.json' },
        { ...good, rows: 'mine' },
        { ...good, id: 'm' },
      ],
    );
    expect({ status, stderr }).toEqual({ status: 3, stderr: '' });
    expect(answers.map(({ line, id, error }) => [line, id, error?.message ?? 'fine'])).toEqual([
      [1, 'a', 'fine'],
      [2, undefined, expect.stringContaining('line 2: not valid JSON')],
      [3, 'c', 'missing.gpx: no such file or folder'],
      [4, 'd', 'missing.json: no such file or folder'],
      [5, 'e', expect.stringContaining('line 5: test.runs must be an array of at least 1')],
      [6, 'f', 'line 6: test.options.baseline must be "A" or "B", not "Z"'],
      [7, undefined, expect.stringContaining('"recordings" must be a list of at least one')],
      [8, undefined, expect.stringContaining('line 8: recordings[0]: "reciever" is none of')],
      [9, undefined, 'line 9: recordings[0]: not an object'],
      [10, undefined, 'line 10: "recording" and "test" exclude each other'],
      [11, undefined, 'line 11: "test" names its route itself: give no "route"'],
      [12, undefined, 'line 12: "rows" is a key of the answer: call yours otherwise'],
      [13, 'm', 'fine'],
    ]);
    expect(answers[0].pairs).toBeUndefined();
  });

  test('a key that is likely misspelt is told and kept, others are the user’s own', async () => {
    const good = { route: 'route.json', recording: 'A-1.gpx' };
    const told = (key: string, word: string) => ({
      reason: 'misspelt-key',
      message: `"${key}" is taken for a key of your own: is "${word}" meant?`,
    });
    const lines = [
      { ...good, reciever: 'A', Run: 'one', key: 1, note: 'x', receivers: 3, receiver: 'A' },
      { ...good, recever: 'A', zones: 'UTC', area: 'none' },
      { route: 'route.json', recordings: [{ recording: 'A-1.gpx' }], reciever: 'A', Zone: 'UTC' },
      { test: 'spring/test.json', area: 'mine', id: 'x' },
    ];
    const issues = [
      [told('Run', 'run')],
      [told('recever', 'receiver'), told('zones', 'zone'), told('area', 'areas')],
      [told('Zone', 'zone')],
      [],
    ];
    for (const words of [
      ['assess', '--ndjson'],
      ['assess', '--ndjson', '--figures'],
    ]) {
      const { status, answers } = await ask(words, lines);
      expect(status).toBe(0);
      expect(answers.map((answer) => answer.issues)).toEqual(issues);
      expect(answers[1]).toMatchObject(lines[1]);
    }
    const { answers } = await ask(['snap', '--ndjson'], lines.slice(1, 2));
    expect(answers[0].issues).toEqual(issues[1].slice(0, 2));
  });

  // 2026-11-29: a key that is a number came first, as objects put it
  test('the line’s number is the first thing in an answer, whatever keys there are', async () => {
    const { stdout } = await ask(
      ['assess', '--ndjson'],
      ['{"b":1,"1":"x","route":"route.json","recording":"A-1.gpx"}', '{"0":1,"recording":"missing.gpx"}'],
    );
    expect(stdout.match(/^.{11}/gm)).toEqual(['{"line":1,"', '{"line":2,"']);
    expect(stdout).toMatch(/^\{"line":1,"1":"x","b":1,"route"/);
  });
});

describe('combine --ndjson', () => {
  test('an answer without figures is told what makes them', async () => {
    const asked = await ask(['assess', '--ndjson'], [{ route: 'route.json', recording: 'A-1.gpx' }]);
    const { status, answers } = await ask(['combine', '--ndjson'], asked.stdout.trimEnd().split('\n'));
    expect(status).toBe(3);
    expect(answers[0].error.message).toMatch(/without --figures/);
  });

  const days = [1, 2, 3].map((day) => names.filter((name) => name.endsWith(`${day}`)));
  const lines = [
    ...days.map((day) => ({ route: 'route.json', recordings: listed(day) })),
    { route: 'longer.json', recordings: listed(days[0], '-longer') },
  ];

  test('gives a summary a route, of assessments or of figures, in whatever order and grouping they come', async () => {
    const figures = await ask(['assess', '--ndjson', '--figures'], lines);
    expect(figures.status).toBe(0);
    expect(figures.answers.map(({ line, rows, figures: found }) => [line, rows, found.length])).toEqual(
      [1, 2, 3, 4].map((line) => [line, undefined, 1]),
    );
    const first = await ask(['combine', '--ndjson'], figures.stdout.trimEnd().split('\n'));
    expect({ status: first.status, stderr: first.stderr }).toEqual({ status: 0, stderr: '' });
    expect(first.answers.map(({ route: { name }, runs }) => [name, runs.length]).sort()).toEqual([
      ['quay 400', 3],
      ['quay 420', 1],
    ]);
    expect(new Set(first.answers.map(({ route: { hash } }) => hash)).size).toBe(2);
    for (const summary of first.answers) expect(schemaJudge('testSummary')(summary)).toEqual([]);

    const all = figures.answers.map(({ figures: [one] }) => one);
    const groupings: unknown[][] = [
      [...figures.answers].reverse(),
      [all[2], all[0], all[3], all[1]],
      [{ figures: [all[3], all[1]] }, all[2], { figures: [all[0]], id: 7 }, { figures: [] }],
      [{ figures: all }],
    ];
    for (const grouping of groupings) expect((await ask(['combine', '--ndjson'], grouping)).stdout).toBe(first.stdout);
  });

  test('whole assessments say the same', async () => {
    const assessments = days.map((day) => assess(route, day.map(entry)));
    const [whole, small] = await Promise.all([
      ask(['combine', '--ndjson'], assessments),
      ask(['combine', '--ndjson'], assessments.map(runFigures).reverse()),
    ]);
    expect(whole.answers).toEqual([JSON.parse(JSON.stringify(combine(assessments)))]);
    expect(small.stdout).toBe(whole.stdout);
  });

  test('a line that is neither is answered with its number, the others stand', async () => {
    const figures = runFigures(assess(route, days[0].map(entry)));
    const { status, answers } = await ask(
      ['combine', '--ndjson', '--baseline', 'A'],
      [
        'rubbish',
        figures,
        { ...figures, rows: undefined, id: 3 },
        { line: 17, key: 'k', route: 'route.json', error: { reason: 'unreadable', message: 'a.gpx: no such file' } },
        { figures: 'none' },
        { figures: [figures, {}] },
      ],
    );
    expect(status).toBe(3);
    expect(answers.map(({ line, id, key, error }) => [line, id ?? key, error?.message])).toEqual([
      [1, undefined, expect.stringContaining('line 1: not valid JSON')],
      [3, 3, expect.stringContaining('rows must be an object')],
      [4, 'k', 'line 4: an answer with an error: a.gpx: no such file'],
      [5, undefined, 'line 5: "figures" must be a list'],
      [6, undefined, expect.stringContaining('must be what assess or runFigures returned')],
      [undefined, undefined, undefined],
    ]);
    // of a line with a fault nothing is taken: the good half of line 6 would have been a second run
    expect(answers[5].runs).toHaveLength(1);
  });

  test('a baseline that the route has not is said beside its hash', async () => {
    const figures = runFigures(assess(route, days[0].map(entry)));
    const { status, answers } = await ask(['combine', '--ndjson', '--baseline', 'Z'], [figures]);
    expect(status).toBe(3);
    expect(answers).toEqual([
      {
        route: { hash: figures.method.inputs[0].hash },
        error: { reason: 'wrong-type', message: expect.stringContaining('options.baseline must be') },
      },
    ]);
  });

  test('nothing in, nothing out', async () => {
    expect(await run(['combine', '--ndjson'], '')).toEqual({ status: 0, stdout: '', stderr: '' });
  });
});

describe('answers that cannot be lost', () => {
  const line = `${JSON.stringify({ route: 'route.json', recording: 'A-1.gpx' })}\n`;
  const leftovers = () => readdirSync(folder).filter((name) => name.startsWith('.datumline'));
  /** A command that has answered so much that it is amid its work. */
  async function amid(words: readonly string[]): Promise<ChildProcess> {
    const child = spawn(process.execPath, [commandFile, 'assess', '--ndjson', '--threads', '1', ...words], {
      cwd: folder,
    });
    child.stdin.write(line.repeat(5));
    await until(() => words.length === 0 || leftovers().length > 0);
    return child;
  }
  async function until(met: () => boolean): Promise<void> {
    for (let k = 0; k < 600 && !met(); k++) await new Promise((resolve) => setTimeout(resolve, 50));
    expect(met()).toBe(true);
  }

  test('with --out the file is there when all answers are, and a killed run leaves the old one', async () => {
    const file = join(folder, 'answers.ndjson');
    const { status, stdout } = await ask(['assess', '--ndjson', '--out', 'answers.ndjson'], [line, line]);
    expect({ status, stdout }).toEqual({ status: 0, stdout: '' });
    const before = readFileSync(file, 'utf8');
    expect(before.trimEnd().split('\n')).toHaveLength(2);

    const child = await amid(['--out', 'answers.ndjson']);
    child.kill('SIGKILL');
    expect(await once(child, 'close')).toEqual([null, 'SIGKILL']);
    expect(readFileSync(file, 'utf8')).toBe(before);
    for (const name of leftovers()) rmSync(join(folder, name));
  });

  test('an interruption ends in a sentence and 130, and leaves nothing behind', async () => {
    const child = await amid(['--out', 'never.ndjson']);
    let told = '';
    child.stderr!.on('data', (chunk) => (told += chunk));
    child.kill('SIGINT');
    expect(await once(child, 'close')).toEqual([130, null]);
    expect(told).toBe('datumline: interrupted; files are written whole or not at all\n');
    expect(existsSync(join(folder, 'never.ndjson'))).toBe(false);
    expect(leftovers()).toEqual([]);
  });

  test('a folder that is not there is told before anything is read', async () => {
    const { status, stderr } = await run(['assess', '--ndjson', '--out', 'none/answers.ndjson'], line);
    expect({ status, stderr }).toEqual({
      status: 1,
      stderr: 'datumline: none/answers.ndjson: no such file or folder\n',
    });
  });

  test.each(['assess', 'combine'])('%s: a closed pipe ends quietly', async (command) => {
    const child = spawn(process.execPath, [commandFile, command, '--ndjson'], { cwd: folder });
    let told = '';
    child.stderr.on('data', (chunk) => (told += chunk));
    child.stdin.on('error', () => {});
    child.stdout.destroy();
    child.stdin.write('rubbish\n'.repeat(20_000));
    child.stdin.end();
    const [status] = await once(child, 'close');
    expect({ status, told }).toEqual({ status: 0, told: '' });
  });
});

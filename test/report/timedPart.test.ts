import { csvParse } from 'd3-dsv';
import { assess, combine, judgeByTime, routeFromLine } from 'datumline';
import { reportHtml, timedToCsv } from 'datumline/report';
import { expect, test } from 'vitest';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';
import { every, TimedRide } from '../support/timedRide';

const ride = new TimedRide({ seconds: 600, speed: () => 3, azimuth: (t) => (t < 300 ? 90 : 100) });
const { lon, lat } = ride.truth(1);
const route = routeFromLine({ lon, lat });
const entriesOf = (run: string, seed: number, name = 'B') => {
  const normal = normals(seed);
  const carried = [
    { receiver: 'A', sigma: 1, out: 0 },
    { receiver: name, sigma: 4, out: 40 },
  ];
  return carried.map(({ receiver, sigma, out }) => {
    const [ahead, right] = [0, 1].map(() => correlatedOffsets(normal, { seconds: 601, correlation: 5, sigma }));
    const seconds = every(590, 1, 4).filter((t) => !(t >= 200 && t < 200 + out));
    const recording = ride.record(seconds, { ahead: (t) => ahead[t], right: (t) => right[t] }, receiver);
    return { recording, receiver, run };
  });
};
const judged = (run: string, seed: number, name?: string) => {
  const entries = entriesOf(run, seed, name);
  return { onRoute: assess(route, entries), byTime: judgeByTime(ride.truth(5, 0.1), entries, { route }) };
};
const one = judged('one', 5);
const partOf = (html: string) => /<section id="clock"[\s\S]*?<\/section>/.exec(html)?.[0] ?? '';
const single = partOf(reportHtml(one.onRoute, { byTime: one.byTime }));
const textOf = (html: string) => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');

test('the part stands only where there is a truth', () => {
  expect(partOf(reportHtml(one.onRoute))).toBe('');
  expect(single).toMatch(/<h2 [^>]*>By the clock: how far from where it was at that second<\/h2>/);
  expect(partOf(reportHtml(one.onRoute, { byTime: [] }))).toBe('');
});

test('its first sentence is what is sure, with its interval and what it holds for', () => {
  const first = /<li>([\s\S]*?)<\/li>/.exec(single)![1];
  const [pair] = one.byTime.pairs;
  expect(pair).toMatchObject({ verdict: 'closer', closer: 'A' });
  expect(first).toMatch(
    /“A” lay closer to the true place than “B”, by \d\.\d\u00A0m \(\d\.\d–\d\.\d\u00A0m\), in this run\./,
  );
});

test('the table has horizontal, along and across at 50, 75 and 95 %, those of the rows', () => {
  const table = /<table>[\s\S]*?<\/table>/.exec(single)![0];
  const columns = [...table.matchAll(/<th scope="col">([\s\S]*?)<\/th>/g)].map(([, name]) => name);
  expect(columns).toEqual([
    'Receiver',
    ...['horizontal', 'along', 'across'].flatMap((kind) => [50, 75, 95].map((share) => `${kind} ${share} %`)),
    'CE95',
  ]);
  const cells = [...table.matchAll(/<td><span>([\d.]+)/g)].map(([, value]) => Number(value));
  const wanted = one.byTime.rows.flatMap(({ horizontal, along, across, ce95 }) => [
    ...[horizontal!, along!, across!].flatMap(({ p50, p75, p95 }) => [p50, p75, p95]),
    ce95!,
  ]);
  expect(cells.length).toBe(20);
  cells.forEach((cell, i) => {
    expect(Math.abs(cell - wanted[i])).toBeLessThan(0.0501);
  });
});

test('pictures say in words what they show, and draw no more than a reader can see', () => {
  const labels = [...single.matchAll(/<svg [^>]*role="img" aria-label="([^"]*)"/g)].map(([, label]) => label);
  expect(labels.filter((label) => label.startsWith('Errors by the second against time.'))).toHaveLength(1);
  expect(labels.filter((label) => label.startsWith('Errors by the second against the route.'))).toHaveLength(1);
  const scatters = labels.filter((label) => label.includes('about the true place'));
  expect(scatters).toHaveLength(2);
  expect(scatters[0]).toMatch(/ahead of the true place up, right of it to the right/);
  expect(scatters[0]).toMatch(
    /The ring is CE95, \d\.\d\u00A0m\. The disc is the uncertainty of the truth, 0\.1\u00A0m\./,
  );
  // an hour of six receivers at 1 Hz is 6 × 3600 × 2 corners, twice: a budget keeps it to some 30 000
  const six = Array.from({ length: 6 }, (_, k) => ({
    ...one.byTime.recordings[0],
    name: `r${k}`,
    receiver: `r${k}`,
    run: null,
  }));
  const long = (column: readonly (number | null)[]) =>
    Array.from({ length: 3600 }, (_, i) => column[i % column.length]);
  const hour = {
    ...one.byTime,
    truth: { ...one.byTime.truth, known: new Array(3600).fill(1), alongTrack: long([]).map((_, i) => i / 2) },
    recordings: six.map((recording, k) => ({
      ...recording,
      along: long(recording.along).map((value, i) => (value === null ? null : value + Math.sin(i * (k + 1)))),
      across: long(recording.across).map((value, i) => (value === null ? null : value + Math.cos(i * (k + 1)))),
    })),
    rows: six.map(({ name }) => ({ ...one.byTime.rows[0], recording: name })),
    pairs: [],
  };
  expect(partOf(reportHtml(one.onRoute, { byTime: hour })).length).toBeLessThan(1_100_000);
});

test('outages, the first fix and the delay stand in a table of their own', () => {
  const presence = textOf(single.slice(single.indexOf('There at all, and how late')));
  expect(presence).toMatch(/A 98 % of 601/);
  expect(presence).toMatch(/B 91 % of 601 40 s 3 min 20 s after the beginning 4\.0 s/);
});

test('over runs the figures are those of the summary, and the sentence says over how many', () => {
  const runs = [6, 7, 8].map((seed, i) => judged(`day ${i + 1}`, seed));
  const byTime = runs.map((run) => run.byTime);
  const assessments = runs.map((run) => run.onRoute);
  const html = partOf(reportHtml(assessments, { byTime }));
  expect(html).toMatch(/“A” lay closer to the true place than “B”, by [^,]*, over 3 runs\./);
  const { byTime: summary } = combine(assessments, { byTime });
  const cells = [...html.matchAll(/<td><span>([\d.]+)/g)].map(([, value]) => Number(value));
  expect(Math.abs(cells[0] - summary!.rows[0].horizontal!.p50.mean)).toBeLessThan(0.0501);
  const lines = csvParse(timedToCsv(byTime, { summary: summary! }));
  const over = lines.find(
    (line) => line.run === '' && line.component === 'horizontal' && line.metric === 'p95 95 % low',
  )!;
  expect(Number(over.value)).toBe(summary!.rows[0].horizontal!.p95.interval95![0]);
  expect(over.receiver).toBe('A');
  expect(new Set(lines.map(({ run }) => run))).toEqual(new Set(['day 1', 'day 2', 'day 3', '']));
});

test('names are only ever text; nothing that judgeByTime did not return is drawn', () => {
  const named = judged('<b>one</b>', 9, '<img src=x>');
  const html = reportHtml(named.onRoute, { byTime: named.byTime });
  expect(partOf(html)).toContain('&lt;img src=x&gt;');
  expect(html).not.toContain('<img src=x>');
  expect(() => reportHtml(one.onRoute, { byTime: [{} as never] })).toThrow(
    /^options\.byTime\[0\] must be what judgeByTime returned/,
  );
});

test('figures below the truth’s own uncertainty are faint', () => {
  const entries = entriesOf('one', 5);
  const coarse = judgeByTime(ride.truth(5, 30), entries, { route });
  expect(partOf(reportHtml(one.onRoute, { byTime: coarse }))).toMatch(/<td><span class="weak">/);
});

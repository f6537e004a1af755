import { assess, combine, routeBuilder } from 'datumline';
import { reportHtml, toCsv, toGeoJson } from 'datumline/report';
import { describe, expect, test } from 'vitest';
import { simulateRun } from '../support/simulateRun';

const route = routeBuilder()
  .start([5, 52])
  .section('quay')
  .lineBy({ azimuth: 90, distance: 600 })
  .section('lane')
  .lineBy({ azimuth: 0, distance: 300 })
  .build();
const names = ['a', 'b', 'c'];
const recordings = (seed: number) =>
  simulateRun(route, {
    seed,
    receivers: names.map((name, i) => ({ name, sigma: 3, clockAhead: i === 2 ? 4 : 0 })),
  }).map(({ recording }) => recording);
const shared = assess(route, recordings(3));
const apart = assess(route, recordings(3), { pace: 'apart' });
const heading = 'Ahead or behind?';
/** The text of the table by that caption, tags off. */
const tableOf = (html: string) =>
  /<caption>Ahead of the body[\s\S]*?<\/table>/
    .exec(html)![0]
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');

describe('error along the route in what people read', () => {
  test('the report: a row for each stretch, a cell for each receiver, and what it is relative to', () => {
    const html = reportHtml(shared);
    expect(html).toContain(heading);
    expect(html).toContain('Relative to the pace that the receivers of a run share');
    const table = tableOf(html);
    for (const word of ['quay', 'lane', 'Whole route', 'a', 'b', 'c']) expect(table).toContain(word);
    expect(table.match(/\d\sm (?=, )|\d\sm,/g)).toHaveLength(9);
    // c's clock is 4 s ahead, and the table says late
    const { lag } = shared.rows.find(({ recording, section }) => recording === 'c' && section === null)!
      .alongTrackError!;
    expect(Math.abs(lag! - 4)).toBeLessThan(1.5);
    expect(table).toContain(`+${lag!.toFixed(1)} s`);
  });

  test('over two runs the means of both', () => {
    const days = [3, 4].map((seed, day) =>
      assess(
        route,
        recordings(seed).map((recording, i) => ({ recording, receiver: names[i], run: `day ${day}` })),
      ),
    );
    const html = reportHtml(days, { summary: combine(days) });
    expect(html).toContain('Mean over the runs;');
    const lane = days.map(
      ({ rows }) =>
        rows.find(({ recording, section }) => recording === 'a' && section === 'lane')!.alongTrackError!.p95,
    );
    expect(tableOf(html)).toMatch(new RegExp(`lane \\S+ m ${((lane[0] + lane[1]) / 2).toFixed(1)} m,`));
  });

  test('nothing of it where each was placed alone', () => {
    expect(reportHtml(apart)).not.toContain(heading);
  });

  test('the table of figures: bias and p95 in metres, lag in seconds, empty where there is none', () => {
    const lines = (csv: string) => csv.split('\r\n').filter((line) => line.includes(',alongTrack'));
    const row = shared.rows.find(({ recording, section }) => recording === 'b' && section === 'lane')!;
    const mine = lines(toCsv(shared)).filter((line) => line.includes(',b,lane,'));
    const values = mine.map((line) => line.split(',').slice(7, 10));
    expect(values.map(([metric, , unit]) => [metric, unit])).toEqual([
      ['alongTrackBias', 'm'],
      ['alongTrackP95', 'm'],
      ['alongTrackLag', 's'],
    ]);
    const { bias, p95, lag } = row.alongTrackError!;
    values.forEach(([, value], i) => {
      expect(Number(value)).toBeCloseTo([bias, p95, lag!][i], 3);
    });
    expect(lines(toCsv(apart)).every((line) => line.split(',').at(-2) === '')).toBe(true);
  });

  test('the map: lag and p95 of the recording', () => {
    const recorded = (assessment: typeof shared) =>
      toGeoJson(assessment)
        .features.map(({ properties }) => properties)
        .filter((one) => one.kind === 'recording');
    const [a, , c] = recorded(shared);
    expect(c.lag).toBe(shared.recordings[2].lag!.median);
    expect(a.alongTrackP95).toBe(shared.rows.find(({ section }) => section === null)!.alongTrackError!.p95);
    const [alone] = recorded(apart);
    expect(alone.alongTrackP95).toBeNull();
  });
});

import { assess, direct, recordingFrom, routeBuilder } from 'datumline';
import { planMap, reportHtml } from 'datumline/report';
import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { recordingOf } from '../assess/recordingOf';
import { placeBeside } from '../support/simulateRun';
import { pathPoints } from './pathPoints';

const words = ['quay', 'alley', 'covered way', 'bridge', 'park edge', 'market', 'arcade', 'steps'];

/** Forty invented stretches of 120 m in zigzag, each with a long name. */
function fortyStretches() {
  let at: Position = [2.1, 61.4];
  const line = [at];
  const builder = routeBuilder({ halfWidth: 6 }).start(at);
  for (let i = 0; i < 40; i++) {
    builder.section(`${words[i % 8]} along the long wall no. ${i + 1}`);
    at = direct(at, (Math.floor(i / 4) % 2 === 0 ? 90 : 0) + 20 * Math.sin(i), 120).position;
    builder.lineTo(at);
    line.push(at);
  }
  return assess(builder.build(), [recordingOf(line as [number, number][])]);
}

const drawn = (svg: string, looks: string) =>
  [...svg.matchAll(new RegExp(`<text class="${looks}" x="([\\d.]+)" y="([\\d.]+)"[^>]*>([^<]*)<`, 'g'))].map(
    ([, x, y, text]) => ({ x: Number(x), y: Number(y), text }),
  );

test.each([360, 768, 1600])('%i px wide, no name of a stretch covers another or the line', (width) => {
  const assessment = fortyStretches();
  const svg = planMap(assessment, { width, textSize: 12 });
  const labels = drawn(svg, 'dl-halo dl-strong').map(({ x, y, text }) => {
    // half an em a letter, common practice for sans-serif faces; no source
    const half = (text.length * 6) / 2;
    return { left: x - half, right: x + half, top: y - 5, bottom: y + 5 };
  });
  expect(labels.length).toBeGreaterThan(25);
  for (const [i, a] of labels.entries()) {
    for (const b of labels.slice(0, i)) {
      expect(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom).toBe(false);
    }
  }
  const [, d] = /class="dl-reference"[^>]* d="([^"]*)"/.exec(svg)!;
  const [line] = pathPoints(d);
  for (let i = 1; i < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i - 1], line[i]];
    for (let share = 0; share <= 1; share += 0.02) {
      const [x, y] = [ax + share * (bx - ax), ay + share * (by - ay)];
      expect(labels.filter((box) => x > box.left && x < box.right && y > box.top && y < box.bottom)).toEqual([]);
    }
  }
});

test('a name without room is in the key, its letter in the plan', () => {
  const svg = planMap(fortyStretches(), { width: 360, textSize: 12 });
  const key = [...svg.matchAll(/<text class="dl-strong"[^>]*>([a-z]+)<\/text><text[^>]*>([^<]*)</g)];
  expect(key.length).toBeGreaterThan(25);
  const inPlan = drawn(svg, 'dl-halo dl-strong').map(({ text }) => text);
  for (const [, letter, name] of key) {
    expect(inPlan).toContain(letter);
    expect(inPlan).not.toContain(name);
    expect(name).toMatch(/along the long wall/);
  }
});

/** What the key of a plan says: its letters, each with a name. */
const keyOf = (svg: string) =>
  [...svg.matchAll(/<text class="dl-strong"[^>]*>([a-z]+|–)<\/text><text[^>]*>([^<]*)</g)].map(([, ...both]) => both);

test.each([340, 768])('%i px wide, every stretch is named in the plan or in its key', (width) => {
  const svg = planMap(fortyStretches(), { width, textSize: 12 });
  const inPlan = drawn(svg, 'dl-halo dl-strong').map(({ text }) => text);
  const named = [...inPlan, ...keyOf(svg).map(([, name]) => name)].filter((text) => /along the long wall/.test(text));
  expect(named.length).toBe(40);
  expect(new Set(named).size).toBe(40);
});

/** A route that turns at right angles after each of these distances, with stretches of these names from these turns on. */
function turning(distances: readonly number[], turns: readonly number[], names: Record<number, string>) {
  const builder = routeBuilder({ halfWidth: 2 }).start([2.1, 61.4]);
  let azimuth = 90;
  for (const [i, distance] of distances.entries()) {
    if (names[i]) builder.section(names[i]);
    builder.lineBy({ azimuth, distance });
    azimuth = (azimuth + turns[i] + 360) % 360;
  }
  const route = builder.build();
  const recording = recordingOf(Array.from(route.lon, (lon, i): [number, number] => [lon, route.lat[i]]));
  return assess(route, [recording]);
}

test('a stretch whose middle lies in the midst of itself is named beside another of its places', () => {
  const legs = Array.from({ length: 10 }, (_, i) => (i % 2 === 0 ? 12 : 200));
  const turns = legs.map((_, i) => (i % 4 === 1 || i % 4 === 2 ? -90 : 90));
  const assessment = turning([150, ...legs, 150], [0, ...turns, 0], { 0: 'way in', 1: 'switchbacks', 11: 'way out' });
  const svg = planMap(assessment, { width: 520, textSize: 12 });
  expect(drawn(svg, 'dl-halo dl-strong').map(({ text }) => text)).toEqual(
    expect.arrayContaining(['way in', 'switchbacks', 'way out']),
  );
});

test('a stretch shut in by the line has its name in the key, with a dash, as no letter has room', () => {
  const legs = Array.from({ length: 62 }, (_, i) => 10 * (31 - Math.floor(i / 2)));
  const assessment = turning(legs, Array(62).fill(90), { 0: 'spiral', 61: 'heart' });
  const svg = planMap(assessment, { width: 340, textSize: 12 });
  expect(keyOf(svg)).toContainEqual(['–', 'heart']);
});

test('a stretch of every lap is named once', () => {
  const start: Position = [2.1, 61.4];
  const route = routeBuilder()
    .start(start)
    .laps(3, (lap) => {
      lap.section('straight').lineBy({ azimuth: 0, distance: 200 });
      lap.section('bend').arc({ turn: 'right', radius: 50, sweep: 180 });
      lap.section('back').lineBy({ azimuth: 180, distance: 200 }).arc({ turn: 'right', radius: 50, sweep: 180 });
    })
    .build();
  const recording = recordingOf(Array.from(route.lon, (lon, i): [number, number] => [lon, route.lat[i]]));
  const names = drawn(planMap(assess(route, [recording])), 'dl-halo dl-strong').map(({ text }) => text);
  expect(names.filter((name) => name !== 'N').sort()).toEqual(['back', 'bend', 'straight']);
});

test.each([
  [340, undefined],
  [768, undefined],
  [1600, undefined],
  [768, 320],
])(
  '%i px wide, %o px high, a route through the lower left corner runs beside north arrow and scale bar',
  (width, height) => {
    // east, then north: it begins where they stand
    const svg = planMap(turning([600, 300], [-90, 0], {}), { width, ...(height && { height }) });
    const [, d] = /class="dl-reference"[^>]* d="([^"]*)"/.exec(svg)!;
    const [line] = pathPoints(d);
    const [, foot] = /translate\(16,(\d+)\)/.exec(svg)!.map(Number);
    for (const [, y] of line) expect(y).toBeLessThan(foot - 36);
    expect(Math.max(...line.map(([x]) => x)) - Math.min(...line.map(([x]) => x))).toBeGreaterThan(width / 3);
    if (height !== undefined) expect(foot + 12).toBeLessThanOrEqual(height);
  },
);

test('where the corner is free, north arrow and scale bar stand in it', () => {
  const svg = planMap(turning([300, 600], [90, 0], {}), { width: 768 });
  const [, d] = /class="dl-reference"[^>]* d="([^"]*)"/.exec(svg)!;
  const [, foot] = /translate\(16,(\d+)\)/.exec(svg)!.map(Number);
  const [line] = pathPoints(d);
  expect(Math.max(...line.map(([, y]) => y))).toBeGreaterThan(foot - 36);
});

test('in a close-up north arrow and scale bar stand where no line runs through them', () => {
  // from the lower left corner to the upper right one, and the recording below it
  const route = routeBuilder()
    .start([5, 52])
    .section('slope', { halfWidth: 4 })
    .lineBy({ azimuth: 59, distance: 600 })
    .build();
  const at = Array.from({ length: 121 }, (_, i) => placeBeside(route, 5 * i, Math.abs(i - 60) < 8 ? 12 : 1));
  const recording = recordingFrom({ lon: at.map(([lon]) => lon), lat: at.map(([, lat]) => lat) });
  const svg = /<section id="where"[\s\S]*?(<svg[\s\S]*?<\/svg>)<ul/.exec(reportHtml(assess(route, [recording])))![1];
  const [, dx, dy] = /translate\((-?[\d.]+),(-?[\d.]+)\)/.exec(svg)!.map(Number);
  const foot = dy + Number(/translate\(16,(\d+)\)/.exec(svg)![1]);
  const lines = [...svg.matchAll(/<path class="dl-(?:reference|line)[^>]* d="([^"]*)"/g)].flatMap(([, d]) =>
    pathPoints(d),
  );
  expect(lines.length).toBeGreaterThan(1);
  const through = (left: number, bottom: number) =>
    lines.some((line) =>
      line.some(([x, y], i) => {
        const [fromX, fromY] = line[Math.max(0, i - 1)];
        return Array.from({ length: 101 }, (_, k) => k / 100).some((part) => {
          const [px, py] = [fromX + part * (x - fromX), fromY + part * (y - fromY)];
          return px > left && px < left + 110 && py > bottom - 36 && py < bottom;
        });
      }),
    );
  expect(through(dx + 10, foot)).toBe(false);
  // where they stand in other pictures there is a line
  expect(through(10, foot - dy)).toBe(true);
});

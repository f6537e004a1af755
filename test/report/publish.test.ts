import { assess } from 'datumline';
import { errorDistribution, planMap, reportHtml, reportPictures, ribbonMap, stripChart, toPng } from 'datumline/report';
import { unzlibSync } from 'fflate';
import { JSDOM } from 'jsdom';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { inventedAssessment, inventedStreet, recordedBeside } from './invented';
import { inventedRuns } from './inventedTest';

const assessment = inventedAssessment();
const runs = inventedRuns(2);
const pictures = { planMap, stripChart, ribbonMap, errorDistribution };

const parsed = (svg: string) => new new JSDOM('').window.DOMParser().parseFromString(svg, 'image/svg+xml');
const of = (names: readonly string[]) =>
  assess(
    inventedStreet(),
    names.map((name, i) => ({ recording: recordedBeside(() => i, name), receiver: name })),
  );

/** Colour and dash of a receiver's line in the key of a picture. */
function drawn(svg: string, name: string): string {
  const { documentElement: root } = parsed(svg);
  const entry = [...root.querySelectorAll('g')].find(
    (group) => group.lastElementChild?.tagName === 'text' && group.lastElementChild.textContent === name,
  )!;
  const line = entry.querySelector('path')!;
  return [line.getAttribute('class'), line.getAttribute('stroke'), line.getAttribute('stroke-dasharray')].join(' ');
}

describe('looks', () => {
  test('a receiver is drawn alike whatever else is carried, in whatever order', () => {
    const alone = drawn(planMap(of(['B'])), 'B');
    for (const names of [
      ['A', 'B'],
      ['B', 'A', 'D'],
      ['F', 'E', 'D', 'C', 'B', 'A'],
    ]) {
      expect(drawn(planMap(of(names)), 'B')).toBe(alone);
      expect(drawn(stripChart(of(names)), 'B')).toBe(alone);
    }
  });

  test('names that would be drawn alike are told apart, the same way in every order', () => {
    const names = ['A', 'G', 'M', 'S', 'Y', 'B', 'H', 'N']; // each letter six after the one before: one colour by their names
    const looks = (order: readonly string[]) => {
      const svg = planMap(of(order));
      return new Map(names.map((name) => [name, drawn(svg, name)]));
    };
    const first = looks(names);
    expect(new Set(first.values()).size).toBe(names.length);
    expect(looks([...names].reverse())).toEqual(first);
  });

  test('a test’s own looks come first, in every picture and in the report, and are not changed by others', () => {
    const looks = { B: { colour: '#123abc', dash: 'dotted' as const }, unknown: { colour: '#000000' } };
    for (const draw of Object.values(pictures)) {
      const svg = draw(assessment, { looks });
      expect(drawn(svg, 'B')).toBe('dl-line #123abc 2.2 2');
      expect(drawn(svg, 'A')).toBe(drawn(planMap(assessment), 'A'));
    }
    expect(reportHtml(assessment, { looks })).toContain('stroke="#123abc"');
    expect(drawn(planMap(assessment, { looks: { B: { dash: 'solid' } } }), 'B')).toBe('dl-line dl-r1  ');
  });

  test.each([
    [{ B: { colour: 'red;}</style>' } }, 'options.looks["B"].colour'],
    [{ B: { colour: 7 } }, 'options.looks["B"].colour'],
    [{ B: { dash: '3 3' } }, 'options.looks["B"].dash'],
    [{ B: { color: '#123456' } }, 'options.looks["B"].color'],
    [{ B: null }, 'options.looks["B"]'],
    [[], 'options.looks'],
    ['red', 'options.looks'],
  ])('refuses %j by name', (looks, argument) => {
    for (const draw of [...Object.values(pictures), reportHtml, reportPictures]) {
      expect(() => draw(assessment, { looks: looks as never })).toThrow(expect.objectContaining({ argument }));
    }
  });
});

describe('theme and size', () => {
  test.each(Object.entries(pictures))('%s of one theme names its colours and asks nobody', (_, draw) => {
    const [light, dark, reader] = (['light', 'dark', 'reader'] as const).map((theme) => draw(runs, { theme }));
    for (const svg of [light, dark]) expect(svg).not.toMatch(/var\(|@media|--dl-/);
    expect(light).toContain('.dl-paper{fill:#fcfcfa}');
    expect(dark).toContain('.dl-paper{fill:#13171b}');
    expect(reader).toContain('@media (prefers-color-scheme:dark)');
    const body = (svg: string) => svg.replace(/<style>.*?<\/style>/s, '');
    expect(body(dark)).toBe(body(light));
    expect(body(reader)).toBe(body(light));
  });

  test.each(Object.entries(pictures))('%s is as wide as asked, its words as large', (_, draw) => {
    const { documentElement: root } = parsed(draw(assessment, { width: 1600, textSize: 24 }));
    expect(root.getAttribute('width')).toBe('1600');
    expect(root.getAttribute('viewBox')).toMatch(/^0 0 800 /);
    expect(Number(root.getAttribute('height'))).toBeCloseTo(2 * Number(root.getAttribute('viewBox')!.split(' ')[3]), 1);
    for (const [options, argument] of [
      [{ width: 470, textSize: 24 }, 'options.width'],
      [{ textSize: 7 }, 'options.textSize'],
      [{ textSize: Number.NaN }, 'options.textSize'],
      [{ theme: 'blue' }, 'options.theme'],
    ] as const) {
      expect(() => draw(assessment, options as never)).toThrow(expect.objectContaining({ argument }));
    }
  });

  test('a plan is no higher than asked, a strip as high', () => {
    const height = (svg: string) => Number(parsed(svg).documentElement.getAttribute('height'));
    expect(height(planMap(runs, { height: 300 }))).toBeLessThan(360);
    expect(Math.abs(height(stripChart(runs, { height: 600 })) - 600)).toBeLessThan(30);
    expect(() => planMap(runs, { height: 50 })).toThrow('options.height must be a number of at least 120');
  });
});

describe('which receivers, which stretch', () => {
  test.each(Object.entries(pictures))('%s shows those named and no others', (_, draw) => {
    const svg = draw(runs, { receivers: ['C', 'A'] });
    const words = [...parsed(svg).querySelectorAll('text')].map((text) => text.textContent);
    expect(words).toEqual(expect.arrayContaining(['A', 'C']));
    expect(words).not.toContain('B');
    expect(() => draw(runs, { receivers: ['A', 'D'] })).toThrow("options.receivers[1] must be one of A, B, C, not 'D'");
  });

  test('a place keeps its number where others are left out', () => {
    const numbers = (svg: string) =>
      [...parsed(svg).querySelectorAll('g.dl-place')].map((place) => place.getAttribute('data-place'));
    const all = numbers(planMap(runs));
    const mine = numbers(planMap(runs, { receivers: ['B'] }));
    expect(mine.length).toBeGreaterThan(0);
    expect(mine.length).toBeLessThan(all.length);
    expect(all).toEqual(expect.arrayContaining(mine));
  });

  test('a stretch in metres, and what is none', () => {
    const { documentElement: root } = parsed(stripChart(assessment, { stretch: { from: 100, to: 200 } }));
    const ticks = [...root.querySelectorAll('text.dl-small.dl-soft')].map((text) => Number(text.textContent));
    expect(ticks).toEqual(expect.arrayContaining([100, 120, 180]));
    expect(ticks.filter((tick) => tick > 200)).toEqual([]);
    for (const [stretch, rule] of [
      [{ from: -1, to: 50 }, /a stretch of the route/],
      [{ from: 100, to: 100 }, /at least a metre long/],
      [{ from: 100 }, /options.stretch.to/],
    ] as const) {
      for (const draw of [planMap, stripChart, errorDistribution]) {
        expect(() => draw(assessment, { stretch: stretch as never })).toThrow(rule);
      }
    }
    expect(() => planMap(assessment, { section: 'west', stretch: { from: 1, to: 9 } })).toThrow(
      'options.stretch must be absent where options.section is given',
    );
  });

  test('a place close up', () => {
    expect(planMap(assessment, { place: 1 })).toContain('data-place="1"');
    expect(planMap(assessment, { place: 1 })).not.toContain('data-place="2"');
    expect(() => planMap(assessment, { place: 99 })).toThrow('options.place must be one of 1');
  });
});

describe('every picture of a report', () => {
  test('the plan, the strip, the distances, each numbered place, each stretch, each name once', () => {
    const made = reportPictures(runs, { theme: 'light' });
    const names = made.map(({ name }) => name);
    const places = parsed(planMap(runs)).querySelectorAll('g.dl-place').length;
    expect(places).toBeGreaterThan(1);
    expect(names).toEqual([
      'plan',
      'strip',
      'distribution',
      ...Array.from({ length: places }, (_, i) => `place-${i + 1}`),
      ...['street', 'oval-lap-1', 'oval-lap-2'].flatMap((name, i) => [
        `stretch-${i + 1}-${name}`,
        `stretch-${i + 1}-${name}-plan`,
      ]),
    ]);
    for (const { svg } of made) {
      const { documentElement: root } = parsed(svg);
      expect(root.querySelector('parsererror')).toBeNull();
      expect(root.getAttribute('width')).toBe('1600');
    }
  });

  test('names of stretches become names of files on any system, and of no other folder', () => {
    const named = inventedAssessment(['A', 'B'], ['../Éstación: <Süd>', '東京']);
    const names = reportPictures(named).map(({ name }) => name);
    expect(names).toEqual(expect.arrayContaining(['stretch-1-estacion-sud', 'stretch-2', 'stretch-2-plan']));
    for (const name of names) expect(name).toMatch(/^[a-z0-9-]+$/);
  });

  test('of one receiver only the places where it strayed', () => {
    const all = reportPictures(assessment).map(({ name }) => name);
    const mine = reportPictures(assessment, { receivers: ['A'] }).map(({ name }) => name);
    expect(all).toContain('place-1');
    expect(mine).not.toContain('place-1');
  });
});

describe('PNG', () => {
  afterEach(() => {
    vi.doUnmock('@resvg/resvg-js');
    vi.resetModules();
  });

  // Portable Network Graphics (PNG) Specification, W3C, section 5.2 signature, 11.2.1 IHDR, 9.2 filters: whatever the
  // filter, the first pixel of the first row is its own difference from nothing
  test.each([
    ['light', [0xfc, 0xfc, 0xfa, 0xff]],
    ['dark', [0x13, 0x17, 0x1b, 0xff]],
  ] as const)('%s: signature, width, depth, and the ground in its first pixel', async (theme, ground) => {
    const png = await toPng(planMap(assessment, { theme, width: 800 }));
    expect([...png.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
    const view = new DataView(png.buffer, png.byteOffset);
    expect(view.getUint32(16)).toBe(800);
    expect([png[24], png[25]]).toEqual([8, 6]); // 8 bits a channel, with alpha
    const parts: Uint8Array[] = [];
    for (let at = 8; at < png.length; at += 12 + view.getUint32(at)) {
      const type = String.fromCharCode(...png.subarray(at + 4, at + 8));
      if (type === 'IDAT') parts.push(png.subarray(at + 8, at + 8 + view.getUint32(at)));
    }
    expect([...unzlibSync(Buffer.concat(parts)).subarray(1, 5)]).toEqual([...ground]);
  });

  test('words are in it: without them it is another picture', async () => {
    const svg = planMap(assessment, { theme: 'light' });
    const mute = svg.replace(/<text.*?<\/text>/gs, '');
    expect(await toPng(svg)).not.toEqual(await toPng(mute));
  });

  test('what asks its reader for the theme, and what is no SVG, is refused', async () => {
    await expect(toPng(planMap(assessment))).rejects.toMatchObject({ reason: 'misplaced', argument: 'svg' });
    await expect(toPng('<p>')).rejects.toMatchObject({ reason: 'unreadable', argument: 'svg' });
    const wide = '<svg xmlns="http://www.w3.org/2000/svg" width="100000000" height="30"/>';
    await expect(toPng(wide)).rejects.toMatchObject({ reason: 'too-large', argument: 'svg' });
    await expect(toPng(5 as never)).rejects.toMatchObject({ reason: 'wrong-type', argument: 'svg' });
  });

  test('a machine without a font is told so, not handed pictures without words', async () => {
    const real = await vi.importActual<typeof import('@resvg/resvg-js')>('@resvg/resvg-js');
    class Bare extends real.Resvg {
      constructor(svg: string) {
        super(svg, { font: { loadSystemFonts: false } });
      }
    }
    vi.resetModules();
    vi.doMock('@resvg/resvg-js', () => ({ ...real, Resvg: Bare }));
    const { toPng: onBare } = await import('datumline/report');
    await expect(onBare(planMap(assessment, { theme: 'light' }))).rejects.toMatchObject({
      reason: 'missing',
      argument: 'a font',
    });
  });

  test('without the renderer it names the package to install', async () => {
    vi.resetModules();
    vi.doMock('@resvg/resvg-js', () => {
      throw new Error('Cannot find package');
    });
    const { toPng: without } = await import('datumline/report');
    await expect(without(planMap(assessment, { theme: 'light' }))).rejects.toThrow('npm install @resvg/resvg-js');
  });
});

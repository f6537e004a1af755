import { assess, direct, InputError, pointAt, routeBuilder } from 'datumline';
import { errorDistribution, planMap, reportHtml, ribbonMap, stripChart } from 'datumline/report';
import { JSDOM } from 'jsdom';
import { expect, test } from 'vitest';
import { recordingOf } from '../assess/recordingOf';
import { inventedAssessment } from './invented';
import { pathPoints } from './pathPoints';

const assessment = inventedAssessment();

function parsed(svg: string): Document {
  const { window } = new JSDOM();
  return new window.DOMParser().parseFromString(svg, 'image/svg+xml');
}

const pictures = { planMap, stripChart, ribbonMap, errorDistribution };

test.each(Object.entries(pictures))(
  '%s is well-formed SVG with a name, a description and no outside address',
  (_, draw) => {
    const svg = draw(assessment);
    const { documentElement: root } = parsed(svg);
    expect(root.querySelector('parsererror')).toBeNull();
    expect(root.getAttribute('role')).toBe('img');
    expect(root.querySelector('title')?.textContent).toContain('Invented street');
    expect(root.querySelector('desc')?.textContent?.length).toBeGreaterThan(40);
    expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|url\(|href=/);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    expect([...root.querySelectorAll('text')].map((text) => text.textContent)).toEqual(
      expect.arrayContaining(['A', 'B', 'C']),
    );
  },
);

test('a gap in a recording is a gap in its line', () => {
  const { documentElement: root } = parsed(stripChart(assessment, { width: 900 }));
  const lines = [...root.querySelectorAll('path.dl-line.dl-r1')].map((path) => path.getAttribute('d')!);
  const [drawn] = lines.filter((d) => d !== 'M0,0H28');
  const ends = pathPoints(drawn).map((piece) => piece.map(([x]) => x));
  expect(ends).toHaveLength(2);
  const metres = (x: number) => (x * 600) / 848; // 900 less the margins of 42 and 10
  expect(metres(ends[0].at(-1)!)).toBeGreaterThan(395);
  expect(metres(ends[0].at(-1)!)).toBeLessThan(402);
  expect(metres(ends[1][0])).toBeGreaterThan(458);
  expect(metres(ends[1][0])).toBeLessThan(464);
});

test('left is drawn above the line and right below it', () => {
  const { documentElement: root } = parsed(stripChart(assessment));
  const heights = [...root.querySelectorAll('path.dl-line.dl-r1')]
    .map((path) => path.getAttribute('d')!)
    .filter((d) => d !== 'M0,0H28')
    .flatMap((d) => pathPoints(d).flatMap((piece) => piece.map(([, y]) => y)));
  expect(Math.max(...heights)).toBeLessThan(55); // receiver B lies 3 m left; the panel's middle is at 55
});

test('the worst place has the same number in plan, strip and report', () => {
  const badge = /data-place="1"[^>]*><circle class="dl-badge"/;
  expect(planMap(assessment)).toMatch(badge);
  expect(stripChart(assessment)).toMatch(badge);
  expect(reportHtml(assessment)).toContain('C: 19.8\u00A0m\u00A0right at 150\u00A0m in west');
});

test('what cannot be drawn is refused by name', () => {
  expect(() => planMap(assessment, { section: 'north' })).toThrow(
    "options.section must be one of west, east, not 'north'",
  );
  expect(() => stripChart(assessment, { panels: 'lap', section: 'west' })).toThrow(InputError);
  expect(() => ribbonMap(assessment, { receivers: ['D'] })).toThrow(
    "options.receivers[0] must be one of A, B, C, not 'D'",
  );
  expect(() => reportHtml([])).toThrow('assessments must be at least one assessment, not an empty array');
  expect(() => reportHtml({} as never)).toThrow('assessment must be what assess returned, not an object');
  expect(() => reportHtml([assessment, inventedAssessment(['A', 'B', 'C'], ['west', 'other'])])).toThrow(
    'assessments[1] must be an assessment on the same route as the first, not an object',
  );
  expect(() => reportHtml(assessment, { titel: 'x' } as never)).toThrow('options.titel must be one of title, summary');
});

test('several assessments of one route make one report of several runs', () => {
  const html = reportHtml([assessment, assessment]);
  expect(html).toContain('6 recordings of 3 receivers in 2 runs.');
});

test('a report on 10 km with six recordings stays under 1 MB', () => {
  let route = routeBuilder({ name: 'long' }).start([2.1, 61.4]).section('all', { halfWidth: 5 });
  for (let i = 0; i < 40; i++) route = route.lineBy({ azimuth: i % 2 === 0 ? 60 : 120, distance: 250 });
  const built = route.build();
  const names = ['A', 'B', 'C', 'D', 'E', 'F'];
  const recordings = names.map((name, k) => {
    const positions = Array.from({ length: 3333 }, (_, i): [number, number] => {
      const { position, azimuth } = pointAt(built, 3 * i);
      const offset = 4 * Math.sin(i / (7 + k)) + 2 * Math.sin(1.7 * i + k);
      return direct(position, azimuth + 90, offset).position as [number, number];
    });
    return recordingOf(positions, { name });
  });
  const html = reportHtml(assess(built, recordings));
  expect(html.length).toBeGreaterThan(100_000);
  expect(html.length).toBeLessThan(1_000_000);
});

test('beside whoever went against the route stands no side; beside all others both', () => {
  const route = routeBuilder().start([2.1, 61.4]).lineBy({ azimuth: 90, distance: 600 }).build();
  const walked = (back: 'back' | 'forth', offset: number) =>
    Array.from({ length: 201 }, (_, i) => {
      const { position } = pointAt(route, 3 * (back === 'back' ? 200 - i : i), { outside: 'clamp' });
      return direct(position, 180, offset).position as [number, number];
    });
  const judged = assess(route, [
    recordingOf(walked('forth', 2), { name: 'forth' }),
    recordingOf(walked('back', 3), { name: 'back' }),
  ]);
  const sides = (receivers: readonly string[]) =>
    [...parsed(stripChart(judged, { receivers })).querySelectorAll('text[transform*="rotate"]')].map(
      (text) => text.textContent,
    );
  expect(sides(['forth'])).toEqual(['LEFT', 'RIGHT']);
  expect(sides(['back'])).toEqual(['ASIDE', 'ASIDE']);
});

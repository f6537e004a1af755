import { type Assessment, assess, combine, direct, routeBuilder } from 'datumline';
import { reportHtml } from 'datumline/report';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';

const start: [number, number] = [5.1, 52.4];
const on = (metres: number) => direct(start, 90, metres).position;
const route = routeBuilder({ name: 'three', lateral95: 0.5 })
  .start(start)
  .section('west', { halfWidth: 5 })
  .lineTo(on(300))
  .section('east', { halfWidth: 0.2 })
  .lineTo(on(900))
  .build();
const recording = (right: number, name = 'a') =>
  besideRoute(
    route,
    name,
    steadyFixes({ from: 0, to: 900 }, () => right),
  );
const about = ({ warnings }: Assessment, reason: string) => warnings.filter((warning) => warning.reason === reason);

describe('a recording that never follows the route is told where it lies, and there is a report all the same', () => {
  const { lon, lat, ...rest } = recording(1);
  const moved = (degrees: number) => ({ ...rest, lon, lat: lat.map((value) => value + degrees) });

  test.each([
    // a degree of latitude at 54° is 111.3 km, at 52.4° 111.27 km: GRS 80 arc lengths
    [
      '3.7° north',
      moved(3.7),
      /^It never follows the route: it lies 41[12] km away: another place, or another route\?$/,
    ],
    ['exchanged', { ...rest, lon: lat, lat: lon }, /it lies \d{4} km away; latitude and longitude look swapped\.$/],
  ])('%s', (_, elsewhere, message) => {
    const assessment = assess(route, [elsewhere]);
    expect(assessment.rows).toEqual([]);
    expect(assessment.recordings[0].leftOut).toMatchObject({
      reason: 'off-the-route',
      message: expect.stringMatching(message),
    });
    const page = reportHtml(assessment);
    expect(page).toMatch(/<strong>Left out:<\/strong> a: It never follows the route: it lies/);
  });
});

describe('warnings name their stretch by section and metres', () => {
  test('those of the route', () => {
    const [narrow] = about(assess(route, [recording(1)]), 'route');
    expect(narrow).toMatchObject({ section: 'east', recording: null });
    expect(narrow.from).toBeCloseTo(300, 6);
    expect(narrow.to).toBeCloseTo(900, 6);
  });

  test('an exclusion within a section, and one over two of them', () => {
    const excluded = (from: number, to: number) =>
      about(assess(route, [recording(1)], { exclude: [{ from, to, reason: 'x' }] }), 'excluded')[0];
    expect(excluded(320, 400)).toMatchObject({ section: 'east', from: 320, to: 400 });
    expect(excluded(250, 400)).toMatchObject({ section: null, from: 250, to: 400 });
  });
});

describe('a sentence each', () => {
  test('one file in two runs', () => {
    const day = (run: string, right: number) => assess(route, [{ recording: recording(right), receiver: 'A', run }]);
    const { warnings } = combine([day('one', 1), day('two', 1), day('three', 2)]);
    expect(warnings.filter(({ reason }) => reason === 'same-recording').map(({ message }) => message)).toEqual([
      '“a” in run “two” has the same fixes as “a” in run “one”: one file given twice?',
    ]);
  });

  test('no times at all', () => {
    const { time: _, ...timeless } = recording(1);
    expect(about(assess(route, [timeless]), 'no-times')).toMatchObject([{ recording: 'a' }]);
  });

  test('a table read in a wrong zone: two hours and the 42 s that it lags', () => {
    const { time, ...rest } = recording(2, 'wrong');
    const shifted = { ...rest, time: time!.map((value) => value - 7_158_000) };
    const [clock, ...others] = about(assess(route, [recording(1), shifted]), 'clock');
    expect(others).toEqual([]);
    expect(clock.recording).toBe('wrong');
    expect(clock.message).toMatch(/earlier than “a”: a whole number of hours, as between time zones\.$/);
  });
});

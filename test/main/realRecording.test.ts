import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { simplify } from '@turf/turf';
import { assess, type Recording, type Route, readGpx, routeFromLine, rowOf, snap } from 'datumline';
import { beforeAll, describe, expect, test } from 'vitest';

/**
 * The main job on one real 1 Hz recording: npm gpx-parse 0.10.4 (MIT), tests/integration/data/route-1.1.gpx. A private
 * person's track: nothing of it is printed or copied.
 */
const folder = dirname(createRequire(import.meta.url).resolve('gpx-parse/package.json'));
const text = readFileSync(join(folder, 'tests/integration/data/route-1.1.gpx'), 'utf8');

/** As somebody would author the line by hand over a map: a few dozen waypoints, none of the track more than 10 m off. */
function authorFrom(recording: Recording): { route: Route; waypoints: number } {
  const coordinates = Array.from(recording.lon, (lon, i) => [lon, recording.lat[i]]);
  // Turf's tolerance is in degrees: 10 m on a meridian
  const thinned = simplify({ type: 'LineString', coordinates }, { tolerance: 10 / 111_195, highQuality: true });
  return { route: routeFromLine(thinned), waypoints: thinned.coordinates.length };
}

describe('a real recording of 7 745 fixes', () => {
  let recording: Recording;
  let route: Route;
  let waypoints: number;
  beforeAll(() => {
    [recording] = readGpx(text, { name: 'real' });
    ({ route, waypoints } = authorFrom(recording));
  });

  test('is read whole: every fix, every time, every height', () => {
    // Counted in the file itself, without an XML parser.
    expect(text.match(/<trkpt/g)).toHaveLength(7745);
    expect(recording.lon).toHaveLength(7745);
    expect(recording.time?.every(Number.isFinite)).toBe(true);
    expect(recording.height?.every(Number.isFinite)).toBe(true);
  });

  test('gives a reference of some dozens of waypoints', () => {
    expect(waypoints).toBeGreaterThan(24);
    expect(waypoints).toBeLessThan(400);
    expect(route.length).toBeGreaterThan(5000);
  });

  test('lies on that reference: the thinning tolerance bounds its offsets', () => {
    const snapped = snap(route, recording);
    const on = [...snapped.state].filter((state) => state === 'on').length;
    expect(on / recording.lon.length).toBeGreaterThan(0.98);
    const assessment = assess(route, [recording]);
    const { warnings } = assessment;
    const whole = rowOf(assessment, { recording: assessment.recordings[0].name });
    expect(whole.coverage).toBeGreaterThan(0.95);
    expect(whole.meanAbsolute).toBeGreaterThan(0.1);
    expect(whole.meanAbsolute).toBeLessThan(10);
    expect(Array.isArray(warnings)).toBe(true);
  });

  test('comes out with finite numbers only', () => {
    const json = JSON.stringify(assess(route, [recording]), (_, value) =>
      typeof value === 'number' && !Number.isFinite(value) ? 'NOT FINITE' : value,
    );
    expect(json).not.toContain('NOT FINITE');
  });
});

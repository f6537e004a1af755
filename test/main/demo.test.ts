import { readFileSync } from 'node:fs';
import { assess, readGpx, rowOf, snap } from 'datumline';
import { expect, test } from 'vitest';
import { demoRoute } from '../../examples/demo/demoRoute';
import { demoRuns, recordingFile } from '../../examples/demo/demoRuns';
import { simulateRide } from '../../examples/demo/simulateRide';

const route = demoRoute();
const readAll = ({ run, worn }: (typeof demoRuns)[number]) =>
  Object.keys(worn).map(
    (receiver) => readGpx(readFileSync(recordingFile(run, receiver), 'utf8'), { name: receiver })[0],
  );

test('the committed recordings are what the seeded generator makes', () => {
  const [first] = demoRuns;
  const made = simulateRide(route, first.worn, Date.parse(first.date), 20300504);
  const read = readAll(first);
  for (const [k, { fixes }] of made.entries()) {
    expect(read[k].lon).toHaveLength(fixes.length);
    fixes.forEach((fix, i) => {
      // written with 7 decimals
      expect(Math.abs(read[k].lon[i] - fix.lon)).toBeLessThanOrEqual(0.5e-7 + 1e-9);
      expect(Math.abs(read[k].lat[i] - fix.lat)).toBeLessThanOrEqual(0.5e-7 + 1e-9);
      expect(read[k].time![i]).toBe(fix.time);
    });
  }
});

test.each(demoRuns)('$run: what the generator put in comes out', (run) => {
  const assessment = assess(route, readAll(run));
  const { warnings } = assessment;
  for (const name of ['A', 'B', 'C']) {
    const row = (section: string | null) => rowOf(assessment, { recording: name, section });
    // pulled 4 m to the left along the cliff, and nowhere else
    expect(row('cliff road').bias).toBeLessThan(-1.5);
    expect(row('cliff road').bias).toBeGreaterThan(-7);
    expect(Math.abs(row('quay').bias!)).toBeLessThan(1.5);
    // no fixes in the tunnel; interpolation must not invent them
    expect(row('tunnel').coverage).toBeLessThan(0.2);
    expect(row('quay').coverage).toBeGreaterThan(0.98);
    expect(row(null).referenceLength).toBeCloseTo(route.length, 6);
  }
  expect(warnings.every(({ message }) => message.length > 0)).toBe(true);
});

test('out and back, and both laps, land on their own pass', () => {
  for (const recording of demoRuns.flatMap(readAll)) {
    const { alongTrack, state } = snap(route, recording);
    let reached = 0;
    let back = 0;
    for (let i = 0; i < alongTrack.length; i++) {
      if (state[i] !== 'on') continue;
      back = Math.max(back, reached - alongTrack[i]);
      reached = Math.max(reached, alongTrack[i]);
    }
    expect(back).toBeLessThan(40); // jitter while standing, never a lap or a leg
    expect(reached).toBeGreaterThan(route.length - 30);
  }
});

import { assess, direct, InputError, type Recording, routeBuilder, routeFromLine, rowOf } from 'datumline';
import { expect, test } from 'vitest';
import { recordingOf } from './recordingOf';

const start: [number, number] = [7, 44];

/** A straight street eastwards with two sections, and what runs beside it at a steady offset. */
const street = routeBuilder({ name: 'street' })
  .start(start)
  .section('west', { halfWidth: 5 })
  .lineTo(direct(start, 90, 300).position)
  .section('east', { halfWidth: 5 })
  .lineTo(direct(start, 90, 600).position)
  .build();

function beside(offset: (metre: number) => number, name: string, step = 3): Recording {
  const positions: [number, number][] = [];
  for (let s = 0; s <= 600; s += step) {
    const on = direct(start, 90, s);
    positions.push(direct(on.position, on.finalAzimuth + 90, offset(s)).position as [number, number]);
  }
  return recordingOf(positions, { name });
}

test('a steady offset comes out as mean, bias and side', () => {
  const assessment = assess(street, [beside(() => -4, 'a'), beside((s) => (s < 300 ? 2 : 6), 'b')]);
  const a = rowOf(assessment, { recording: 'a', section: null });
  expect(a.coverage).toBeCloseTo(1, 6);
  expect(a.meanAbsolute).toBeCloseTo(4, 3);
  expect(a.bias).toBeCloseTo(-4, 3);
  expect(a.biasInWords).toBe('4.0 m left');
  expect(a.biasSide).toBe('left');
  expect(a.lengthError).toBeCloseTo(0, 1);
  const west = rowOf(assessment, { recording: 'b', section: 'west' });
  expect(west.p95).toBeCloseTo(2, 2);
  expect(west.insideCorridor).toBeGreaterThan(0.99); // the step across the end of the section leaves it
  expect(rowOf(assessment, { recording: 'b', section: 'east' }).insideCorridor).toBe(0);
});

test('no recordings at all is refused', () => {
  expect(() => assess(street, [])).toThrow(InputError);
  expect(() => assess(street, [])).toThrow('recordings must be at least 1 recording, not an empty array');
});

test('a circle run 3 m outside is 18.85 m longer, inside shorter, all of it turn term', () => {
  const centre: [number, number] = [7, 44];
  const ring = (radius: number, count: number) =>
    Array.from(
      { length: count + 1 },
      (_, i) => direct(centre, 90 - (360 * i) / count, radius).position as [number, number],
    );
  // anticlockwise: right is outside
  const lap = routeFromLine(ring(60, 720));
  const assessment = assess(lap, [
    recordingOf(ring(63, 720), { name: 'outside' }),
    recordingOf(ring(57, 720), { name: 'inside' }),
  ]);
  for (const [name, sign] of [
    ['outside', 1],
    ['inside', -1],
  ] as const) {
    const row = rowOf(assessment, { recording: name, section: null });
    expect(row.bias, name).toBeCloseTo(3 * sign, 2);
    expect(row.lengthError, name).toBeCloseTo(2 * Math.PI * 3 * sign, 1);
    expect(row.turnTerm, name).toBeCloseTo(2 * Math.PI * 3 * sign, 1);
    expect(row.wiggleTerm, name).toBeCloseTo(0, 1);
    expect(Math.abs(row.remainder!), name).toBeLessThan(0.1);
  }
});

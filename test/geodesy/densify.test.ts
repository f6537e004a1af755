import { densify, direct, inverse, lineLength, pointToSegment } from 'datumline/geodesy';
import { expect, test } from 'vitest';
import { seeded, wanderingLine } from '../support/randomLine';

test('given vertices are kept as they are, heights and longitudes included; new ones have no height', () => {
  const dense = densify([[190, 10, 7], [190.01, 10], [190.01, 10]], { maxSpacing: 500 }); // biome-ignore format: one line
  expect(dense[0]).toEqual([190, 10, 7]);
  expect(dense).toHaveLength(5);
  expect(dense.slice(3)).toEqual([[190.01, 10], [190.01, 10]]); // biome-ignore format: one line
  expect(dense[1]).toHaveLength(2);
  expect(dense[1][0]).toBeLessThan(-169);
});

test('the fewest equal pieces that do, each on its geodesic', () => {
  const line = wanderingLine(seeded(2), { start: [179.999, -68], count: 60, step: 700 });
  const dense = densify(line, { maxSpacing: 60 });
  expect(lineLength(dense)).toBeCloseTo(lineLength(line), 6);
  let at = 0;
  for (let i = 1; i < line.length; i++) {
    const edge = inverse(line[i - 1], line[i]).distance;
    const pieces = Math.ceil(edge / 60);
    for (let k = 1; k <= pieces; k++) {
      expect(Math.abs(inverse(dense[at + k - 1], dense[at + k]).distance - edge / pieces)).toBeLessThan(1e-8);
      expect(pointToSegment(dense[at + k], line[i - 1], line[i]).distance).toBeLessThan(1e-8);
    }
    at += pieces;
    expect(dense[at]).toEqual(line[i]);
  }
  expect(dense).toHaveLength(at + 1);
});

test('an edge made 1000 m long is ten pieces of 100 m, not eleven', () => {
  const draw = seeded(4);
  for (let k = 0; k < 200; k++) {
    const from = [draw() * 360 - 180, draw() * 180 - 90];
    expect(densify([from, direct(from, draw() * 360, 1000).position], { maxSpacing: 100 })).toHaveLength(11);
  }
});

test('nothing, one position, and inputs left alone', () => {
  expect(densify([], { maxSpacing: 1 })).toEqual([]);
  expect(densify([[5, 52]], { maxSpacing: 1 })).toEqual([[5, 52]]);
  const line = [Object.freeze([5, 52]), Object.freeze([5.1, 52])] as number[][];
  const dense = densify(Object.freeze(line), { maxSpacing: 1000 });
  expect(dense[0]).not.toBe(line[0]);
});

test('bad input is named', () => {
  const line = [[5, 52], [6, 52]]; // biome-ignore format: one line
  expect(() => densify(line, { maxSpacing: 0 })).toThrow(
    expect.objectContaining({ reason: 'out-of-range', argument: 'options.maxSpacing' }),
  );
  expect(() => densify(line, undefined as never)).toThrow(
    expect.objectContaining({ reason: 'wrong-type', argument: 'options.maxSpacing' }),
  );
  expect(() => densify(line, { maxSpacing: 1, spacing: 1 } as never)).toThrow(
    expect.objectContaining({ reason: 'unknown-key', argument: 'options.spacing' }),
  );
  expect(() => densify(line, { maxSpacing: 1e-6 })).toThrow(
    expect.objectContaining({ reason: 'too-large', argument: 'options.maxSpacing' }),
  );
});

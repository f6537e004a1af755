import {
  areaBetween,
  bufferShare,
  bufferWidth,
  circularError,
  directedHausdorff,
  discreteFrechet,
  frechet,
  hausdorff,
  offsetStatistics,
  routeFromLine,
  withinFrechet,
} from 'datumline';
import type { Position } from 'geojson';
import { normals } from '../../test/support/correlatedOffsets';
import type { GrowthCase } from './GrowthCase';
import { at, kindOf, type Shape, shapeNames, shapes, told } from './inputs';

type Measure = (a: Position[], b: Position[]) => unknown;

const measures: Record<string, Measure> = {
  hausdorff,
  directedHausdorff,
  frechet,
  withinFrechet: (a, b) => withinFrechet(a, b, 12),
  discreteFrechet,
  bufferShare: (a, b) => bufferShare(a, b, 3),
  bufferWidth: (a, b) => bufferWidth(a, b),
};

/** Sizes below the usual thousand, and what is stated of them. */
const special: Record<string, Partial<Record<Shape, Partial<Pick<GrowthCase, 'least' | 'decades' | 'stated'>>>>> = {
  // smaller ones are refused at once: no fix of theirs strays so far
  withinFrechet: {
    zigzag: { least: 1000 },
    'all at one place': { least: 1000 },
    'standing still': { stated: { exponent: 2, says: 'on which see gaps, accuracy and cost' } },
  },
  discreteFrechet: {
    // from a turn to the next there are many ways within the distance
    spiral: { least: 1000, stated: { exponent: 2, says: 'more where turns lie side by side' } },
    'back and forth': { least: 1000 },
    'standing still': { stated: { exponent: 2, says: 'at most the product of the two lengths' } },
  },
  // below some hundred fixes the ends and the Hausdorff distance decide
  frechet: {
    wandering: { least: 1000 },
    'standing still': { least: 400, decades: 1, stated: { exponent: 2, says: 'outline grows with the square' } },
  },
  bufferShare: {
    'standing still': { stated: { exponent: 2, says: 'two that stand still, up to n² times' } },
  },
  bufferWidth: {
    'standing still': { least: 20, stated: { exponent: 2, says: 'n² for two recordings' } },
  },
};

const columns = (n: number) => {
  const normal = normals(3);
  return [Float64Array.from({ length: n }, () => 4 * normal()), Float64Array.from({ length: n }, () => 4 * normal())];
};

export const metricsCases: readonly GrowthCase[] = [
  ...Object.entries(measures).flatMap(([of, measure]) =>
    shapeNames.map((shape): GrowthCase => {
      const { least = 100, ...more } = special[of]?.[shape] ?? {};
      return {
        of,
        input: `${shape}, n vertices, and told by a receiver`,
        kind: kindOf(shape),
        least,
        ...more,
        make: (n) => {
          const line = shapes[shape](n);
          const other = told(line);
          return () => measure(other, line);
        },
      };
    }),
  ),
  ...['hausdorff', 'frechet', 'bufferWidth'].map(
    (of): GrowthCase => ({
      of,
      input: 'two lines of n vertices, 1000 km apart',
      kind: 'hostile',
      least: 40,
      make: (n) => {
        const first = Array.from({ length: n }, (_, i) => at(5 * i, 0));
        const second = Array.from({ length: n }, (_, i) => at(5 * i, 1e6));
        return () => measures[of](first, second);
      },
    }),
  ),
  ...(['a walk', 'back and forth'] as const).map(
    (how): GrowthCase => ({
      of: 'areaBetween',
      input: `${how === 'a walk' ? 'in order along' : 'back and forth over'} 1 km, n fixes`,
      kind: how === 'a walk' ? 'easy' : 'hostile',
      least: 1000,
      make: (n) => {
        const route = routeFromLine([at(0, 0), at(1000, 0)]);
        const [crossTrack, jumps] = columns(n);
        const alongTrack =
          how === 'a walk'
            ? Float64Array.from(crossTrack, (_, i) => (900 * i) / n)
            : Float64Array.from(jumps, (jump) => 500 + Math.max(-499, Math.min(499, 40 * jump)));
        return () => areaBetween(route, { alongTrack, crossTrack });
      },
    }),
  ),
  ...(['as they come', 'all alike', 'falling'] as const).map(
    (order): GrowthCase => ({
      of: 'offsetStatistics',
      input: `n values, ${order}`,
      kind: order === 'as they come' ? 'easy' : 'hostile',
      least: 5000,
      make: (n) => {
        const [values] = columns(n);
        if (order === 'all alike') values.fill(3);
        if (order === 'falling') values.sort().reverse();
        return () => offsetStatistics(values);
      },
    }),
  ),
  {
    of: 'offsetStatistics',
    input: 'n values with weights',
    kind: 'easy',
    least: 3000,
    make: (n) => {
      const [values, weights] = columns(n);
      return () => offsetStatistics(values, weights.map(Math.abs));
    },
  },
  ...(['as they come', 'all alike'] as const).map(
    (order): GrowthCase => ({
      of: 'circularError',
      input: `n pairs, ${order}`,
      kind: order === 'as they come' ? 'easy' : 'hostile',
      least: 3000,
      make: (n) => {
        const [dx, dy] = columns(n);
        if (order === 'all alike') for (const column of [dx, dy]) column.fill(3);
        return () => circularError(dx, dy);
      },
    }),
  ),
];

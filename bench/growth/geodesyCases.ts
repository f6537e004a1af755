import { densify, lineLength } from 'datumline';
import type { GrowthCase } from './GrowthCase';
import { kindOf, shapeNames, shapes } from './inputs';

export const geodesyCases: readonly GrowthCase[] = [
  ...(['wandering', 'all at one place'] as const).map(
    (shape): GrowthCase => ({
      of: 'lineLength',
      input: `${shape}, n positions`,
      kind: kindOf(shape),
      least: 5000,
      make: (n) => {
        const line = shapes[shape](n);
        return () => lineLength(line);
      },
    }),
  ),
  {
    of: 'densify',
    input: 'wandering, n edges of 5 m cut every metre',
    kind: 'easy',
    least: 1000,
    make: (n) => {
      const line = shapes.wandering(n + 1);
      return () => densify(line, { maxSpacing: 1 });
    },
  },
  {
    of: 'densify',
    input: 'one edge of 1000 km cut into n pieces',
    kind: 'hostile',
    least: 5000,
    make: (n) => () =>
      densify(
        [
          [5, 60],
          [5, 69],
        ],
        { maxSpacing: 1e6 / n },
      ),
  },
  ...shapeNames.slice(1, 3).map(
    (shape): GrowthCase => ({
      of: 'densify',
      input: `${shape}, n positions, nothing to be cut`,
      kind: 'hostile',
      least: 3000,
      make: (n) => {
        const line = shapes[shape](n);
        return () => densify(line, { maxSpacing: 1000 });
      },
    }),
  ),
];

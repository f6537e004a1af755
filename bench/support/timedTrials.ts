import { circularError, offsetStatistics } from 'datumline';
import type { ErrorFigures } from '../../src/truth/TimedAssessment';
import { TimedFigures } from '../../src/truth/TimedFigures';
import { normals } from '../../test/support/correlatedOffsets';
import type { NoiseModel } from '../../test/support/noiseModels';
import { seeded } from '../../test/support/randomLine';

/** Of receivers carried together, each with errors of its own size: metres of a standard deviation. */
const sigmas = [3, 5, 8];
/** What the noise models draw. */
const MODEL_SIGMA = 5;
const spreads = ['sd', 'rms', 'p50', 'p68', 'p75', 'p95'] as const;
const kinds = ['horizontal', 'along'] as const;

/** How often an interval was given and held, by the name of its figure: `horizontal p95`, `along mean`, `ce95`. */
export type Held = ReadonlyMap<string, number>;

/** Errors along and across of one receiver, a second each. */
interface Errors {
  readonly along: Float64Array;
  readonly across: Float64Array;
}

/** Stretches that are simulated: so long, errors that last so long. */
export interface TimedTrial {
  readonly seed: number;
  readonly trials: number;
  readonly seconds: number;
  readonly correlation: number;
  readonly model: NoiseModel;
}

/** What the figures are in the long run, errors of 1 m: those of half a million seconds. */
export function trueFigures(model: NoiseModel): ReadonlyMap<string, number> {
  const pieces = Array.from({ length: 4 }, (_, i) => errorsOf(model, 900_001 + i, 125_000, 5));
  const [along, across] = (['along', 'across'] as const).map((kind) =>
    Float64Array.from(pieces.flatMap((piece) => Array.from(piece[kind]))),
  );
  const horizontal = along.map((value, i) => Math.hypot(value, across[i]));
  const { cep50, ce95 } = circularError(along, across, { axes: 'principal' });
  const found = new Map([
    ['cep50', cep50],
    ['ce95', ce95],
  ]);
  for (const [kind, values] of [
    ['horizontal', horizontal],
    ['along', along],
  ] as const) {
    const { mean, sd, rms } = offsetStatistics(values);
    const sizes = values.map(Math.abs).sort();
    for (const [name, value] of Object.entries({ mean, sd, rms })) found.set(`${kind} ${name}`, value);
    for (const p of [50, 68, 75, 95]) found.set(`${kind} p${p}`, sizes[Math.round((p / 100) * (sizes.length - 1))]);
  }
  return found;
}

/** How often the intervals of the figures hold what these are in the long run, of three receivers carried together. */
export function timedTrial(
  { seed, trials, seconds, correlation, model }: TimedTrial,
  truths: ReadonlyMap<string, number>,
): Held {
  const counts = new Map<string, { held: number; given: number }>();
  const range = { first: 0, end: seconds };
  for (let t = 0; t < trials; t++) {
    const columns = sigmas.map((sigma, k) => {
      const { along, across } = errorsOf(model, seed + 1000 * t + 31 * k, seconds, correlation, sigma);
      const horizontal = along.map((value, i) => Math.hypot(value, across[i]));
      const none = along.map(() => Number.NaN);
      return { horizontal, along, across, up: none, east: along, north: across, speed: none };
    });
    const figures = new TimedFigures(columns, [range]);
    sigmas.forEach((sigma, k) => {
      for (const [name, interval] of intervalsOf(figures.figures(k, range, 0))) {
        const entry = counts.get(name) ?? { held: 0, given: 0 };
        counts.set(name, entry);
        if (!interval) continue;
        const truth = sigma * truths.get(name)!;
        entry.given++;
        if (interval[0] <= truth && truth <= interval[1]) entry.held++;
      }
    });
  }
  return new Map([...counts].map(([name, { held, given }]) => [name, held / given]));
}

function intervalsOf(told: ErrorFigures): [name: string, interval: readonly [number, number] | null][] {
  return [
    ...kinds.flatMap(
      (kind): ReturnType<typeof intervalsOf> => [
        [`${kind} mean`, told[kind]!.interval95],
        ...spreads.map((name): [string, readonly [number, number] | null] => [
          `${kind} ${name}`,
          told[kind]!.intervals95?.[name] ?? null,
        ]),
      ],
    ),
    ['cep50', told.circularIntervals95?.cep50 ?? null],
    ['ce95', told.circularIntervals95?.ce95 ?? null],
  ];
}

function errorsOf(model: NoiseModel, seed: number, seconds: number, correlation: number, sigma = 1): Errors {
  const draw = { normal: normals(seed), uniform: seeded(seed + 7) };
  const column = () => model.offsets(draw, seconds, correlation).map((value) => (value * sigma) / MODEL_SIGMA);
  return { along: column(), across: column() };
}

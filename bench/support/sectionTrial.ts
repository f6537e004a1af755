import type { NamedPlaced } from '../../src/assess/NamedPlaced';
import { RunChances } from '../../src/assess/RunChances';
import { rowChances } from '../../src/assess/rowChances';
import { normals } from '../../test/support/correlatedOffsets';
import type { NoiseModel } from '../../test/support/noiseModels';
import { seeded } from '../../test/support/randomLine';
import { straightGrid } from './columnTrials';

/** Receivers carried over a route of several short sections of one length, their offsets simulated. */
export interface SectionTrial {
  readonly seed: number;
  readonly trials: number;
  readonly seconds: number;
  readonly correlation: number;
  readonly sections: number;
  readonly receivers: number;
  readonly model: NoiseModel;
}

/** Share of the sections with an interval of the mean distance, and of these that hold the truth. */
export function sectionTrial(options: SectionTrial): { readonly given: number; readonly held: number } {
  const { seed, trials, seconds, correlation, sections, receivers, model } = options;
  const draw = { normal: normals(seed), uniform: seeded(seed + 1) };
  const grid = straightGrid(seconds * sections, sections);
  const sums = { all: 0, given: 0, held: 0 };
  for (let trial = 0; trial < trials; trial++) {
    const members = Array.from({ length: receivers }, (_, k) => {
      const offset = model.offsets(draw, seconds * sections, correlation);
      return { name: `${k}`, placed: { offset } } as unknown as NamedPlaced;
    });
    const chances = new RunChances(grid, members);
    for (const part of grid.parts) {
      for (const { name } of members) {
        const { interval95 } = rowChances(chances, name, part);
        sums.all++;
        if (interval95 === null) continue;
        sums.given++;
        if (interval95[0] <= model.meanAbsolute && model.meanAbsolute <= interval95[1]) sums.held++;
      }
    }
  }
  return { given: sums.given / sums.all, held: sums.held / Math.max(1, sums.given) };
}

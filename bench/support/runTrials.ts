import type { Assessment, SummaryPair, TestSummary } from 'datumline';
import type { NamedPlaced } from '../../src/assess/NamedPlaced';
import { RunChances } from '../../src/assess/RunChances';
import { finish } from '../../src/model';
import { onSection } from '../../src/runs/onSection';
import { routePairs } from '../../src/runs/routePairs';
import { summaryPairs } from '../../src/runs/summaryPairs';
import { foldedMemory } from '../../src/statistics';
import { correlatedOffsets, normals } from '../../test/support/correlatedOffsets';
import { straightGrid } from './columnTrials';

/** Receivers over several runs of one section, a metre a second, their offsets simulated. */
export interface RunTrial {
  readonly seed: number;
  readonly trials: number;
  readonly seconds: number;
  readonly correlation: number;
  readonly runs: number;
  /** By receiver: σ in metres, and metres further off on the side where it is. */
  readonly sigmas: readonly number[];
  readonly further?: readonly number[];
  /** Variance between runs of the logarithm of a receiver's true mean, over that within a run. */
  readonly spread?: number;
  /** Standard deviation in metres of a bias that each receiver has in each run anew. */
  readonly ownBias?: number;
}

/** By pair `${i}-${k}`: shares told apart on its own and after correction, and the means of what is said of it. */
export interface RunResult {
  readonly pairs: Readonly<
    Record<string, { alone: number; found: number; detectable: number; difference: number; moreRuns: number }>
  >;
  readonly any: number;
}

/** What several runs say together of simulated columns. */
export function runTrial(options: RunTrial): RunResult {
  const { seed, trials, seconds, correlation, runs, sigmas, further = [], spread = 0, ownBias = 0 } = options;
  const normal = normals(seed);
  const grid = straightGrid(seconds);
  const range = { first: 0, end: grid.count };
  const names = sigmas.map((_, i) => `${i}`);
  const couples = names.flatMap((first, i) => names.slice(i + 1).map((second) => ({ first, second })));
  const found = Object.fromEntries(
    couples.map(({ first, second }) => [
      `${first}-${second}`,
      { alone: 0, found: 0, detectable: 0, difference: 0, moreRuns: 0, open: 0 },
    ]),
  );
  const folded = foldedMemory(seconds / correlation);
  const sdOfLog = Math.sqrt((spread * folded.variance) / folded.samples);
  let any = 0;
  for (let trial = 0; trial < trials; trial++) {
    const assessments = Array.from({ length: runs }, () => {
      const members = sigmas.map((sigma, k) => {
        const scale = Math.exp(sdOfLog * normal());
        const bias = ownBias * normal();
        const offset = correlatedOffsets(normal, { seconds, correlation, sigma: sigma * scale, bias }).map(
          (value) => value + Math.sign(value) * (further[k] ?? 0) * scale,
        );
        return { name: `${k}`, placed: { offset } } as unknown as NamedPlaced;
      });
      const chances = new RunChances(grid, members);
      const pairs = couples.map(({ first, second }) => {
        const foretold = chances.distances(first, second, range)!;
        return {
          first,
          second,
          section: null,
          difference: foretold.first - foretold.second,
          floor: 0.5,
          commonShare: 1,
          foretold: foretold.samples >= 3 ? foretold : null,
        };
      });
      return { rows: [], pairs, method: { options: { leverArm: 0.5, equivalence: 1 } } } as unknown as Assessment;
    });
    const listed = assessments.map((assessment, r) => {
      const told = onSection(assessment);
      const members = names.map((name) => ({ assessment, told, recording: name, receiver: name, placement: null }));
      return { name: `${r}`, members, byReceiver: new Map(members.map((member) => [member.receiver, member])) };
    });
    const verdicts: readonly SummaryPair[] = finish(
      summaryPairs(listed, names, null, null, routePairs(assessments, null)),
    ) satisfies TestSummary['pairs'];
    for (const pair of verdicts) {
      const sums = found[`${pair.first}-${pair.second}`];
      if ((pair.pValue ?? 1) <= 0.05) sums.alone += 1 / trials;
      if (pair.verdict === 'closer') sums.found += 1 / trials;
      sums.detectable += pair.detectable! / trials;
      sums.difference += pair.difference! / trials;
      if (pair.verdict === 'undecided' && pair.moreRuns !== null) {
        sums.moreRuns += pair.moreRuns;
        sums.open++;
      }
    }
    if (verdicts.some(({ verdict }) => verdict === 'closer')) any += 1 / trials;
  }
  for (const sums of Object.values(found)) sums.moreRuns /= Math.max(1, sums.open);
  return { pairs: found, any };
}

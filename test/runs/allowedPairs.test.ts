import { describe, expect, test } from 'vitest';
import { allowedPairs } from '../../src/runs/allowedPairs';
import type { Member, Run } from '../../src/runs/summaryRuns';

/** Runs in which two receivers were on allowed ground for these shares, worn at these places in turn. */
const runsOf = (
  shares: readonly (readonly [number | null, number | null])[],
  places: readonly (readonly [string | null, string | null])[] = [[null, null]],
): Run[] =>
  shares.map((both, i) => {
    const members = both.map((insideAllowed, k): Member => {
      const recording = 'ab'[k];
      const rows = new Map([[recording, { insideAllowed }]]);
      const told = new Map([[null, { rows, pairs: new Map() }]]);
      const placement = places[i % places.length][k];
      return { recording, receiver: 'AB'[k], placement, told } as unknown as Member;
    });
    return { name: `run ${i}`, members, byReceiver: new Map(members.map((one) => [one.receiver, one])) };
  });
const judged = (runs: Run[]) => allowedPairs(runs, ['A', 'B'], [{ first: 'A', second: 'B' }], null)[0];

describe('two receivers on allowed ground over four runs', () => {
  // Student’s t of three degrees of freedom, two-sided 90 %: 2.353 (Fisher and Yates, table III)
  const t90 = 2.353;
  /** Differences of mean 0.5 points whose 90 % interval reaches so many points from 0. */
  const reaching = (points: number) => {
    const sd = (((points - 0.5) / t90) * 2) / 100;
    // deviations of ± d in pairs have the standard deviation 2 d/√3
    const d = (sd * Math.sqrt(3)) / 2;
    return runsOf([d, -d, d, -d].map((deviation): [number, number] => [0.805 + deviation, 0.8]));
  };

  test('equally much where the whole 90 % interval lies within two percentage points, and not where it doesn’t', () => {
    expect(judged(reaching(1.99))).toMatchObject({ runs: 4, verdict: 'equivalent', more: null });
    expect(judged(reaching(2.01))).toMatchObject({ runs: 4, verdict: 'undecided', more: null });
    expect(judged(reaching(1.99))!.difference).toBeCloseTo(0.005, 12);
  });

  test('a difference that is sure, yet within the two points, is equally much too', () => {
    const { interval95, adjustedPValue, verdict } = judged(
      runsOf([0.81, 0.8101, 0.8099, 0.81].map((a) => [a, 0.8] as const)),
    )!;
    expect(interval95![0]).toBeGreaterThan(0);
    expect(adjustedPValue).toBeLessThan(0.001);
    expect(verdict).toBe('equivalent');
  });

  test('more, by the one that was, where it is sure and beyond the two points', () => {
    const more = [0.9, 0.91, 0.89, 0.9];
    expect(judged(runsOf(more.map((a) => [a, 0.8] as const)))).toMatchObject({ verdict: 'more', more: 'A' });
    expect(judged(runsOf(more.map((b) => [0.8, b] as const)))).toMatchObject({ verdict: 'more', more: 'B' });
  });

  test('never swapped between the places they are worn at: neither, whatever the shares', () => {
    const same = [0.8, 0.8001, 0.7999, 0.8].map((a) => [a, 0.8] as const);
    expect(judged(runsOf(same, [['left', 'right']]))!.verdict).toBe('undecided');
    const swapped = [['left', 'right'] as const, ['right', 'left'] as const];
    expect(judged(runsOf(same, swapped))!.verdict).toBe('equivalent');
  });

  test('one run decides nothing, and runs without both say nothing', () => {
    expect(judged(runsOf([[0.8, 0.8]]))).toMatchObject({ runs: 1, verdict: 'undecided', interval95: null });
    expect(judged(runsOf([[null, 0.8]]))).toBeNull();
    expect(judged([...reaching(1.9), ...runsOf([[0.1, null]])])).toMatchObject({ runs: 4, verdict: 'equivalent' });
  });
});

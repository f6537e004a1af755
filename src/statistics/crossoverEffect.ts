import type { Interval } from './Interval';
import { studentQuantile } from './studentQuantile';

/** A value that a subject had in a period, with the treatment or without it. */
export interface Observation {
  readonly subject: string;
  readonly period: string;
  readonly treated: boolean;
  readonly value: number;
}

/** What a treatment changes, freed of what subjects and periods change. */
export interface CrossoverEffect {
  readonly difference: number;
  /** Null where nothing is left over to say how sure it is. */
  readonly interval95: Interval | null;
  /** Subjects that say something of it. */
  readonly subjects: number;
}

/**
 * The effect of a treatment in a crossover design, by least squares with one term a subject, one a period and one for the
 * treatment. Undefined where the design cannot tell the treatment from a subject or a period: never swapped, or all
 * swapped together.
 *
 * @see Frisch and Waugh, Partial time regressions, Econometrica 1 (1933): regression on what the other terms leave over
 */
export function crossoverEffect(observations: readonly Observation[]): CrossoverEffect | undefined {
  const treatment = freed(observations, ({ treated }) => (treated ? 1 : 0));
  const value = freed(observations, (observation) => observation.value);
  const own = treatment.reduce((sum, z) => sum + z * z, 0);
  // 0 but for rounding: subjects and periods say all that the treatment says
  if (!(own > 1e-6)) return undefined;
  const difference = treatment.reduce((sum, z, i) => sum + z * value[i], 0) / own;
  const rest = value.reduce((sum, y, i) => sum + (y - difference * treatment[i]) ** 2, 0);
  const degrees = observations.length - termsOf(observations) - 1;
  const half = degrees > 0 ? studentQuantile(0.95, degrees) * Math.sqrt(rest / degrees / own) : 0;
  const told = observations.filter((_, i) => Math.abs(treatment[i]) > 1e-6);
  return {
    difference,
    interval95: degrees > 0 ? [difference - half, difference + half] : null,
    subjects: new Set(told.map(({ subject }) => subject)).size,
  };
}

/** A column without what subjects and periods explain of it: the means of both taken away in turn until none is left. */
function freed(observations: readonly Observation[], columnOf: (observation: Observation) => number): number[] {
  let column = observations.map(columnOf);
  for (let round = 0; round < 1000; round++) {
    let moved = 0;
    for (const key of ['subject', 'period'] as const) {
      const groups = new Map<string, { sum: number; count: number }>();
      observations.forEach((observation, i) => {
        const group = groups.get(observation[key]) ?? { sum: 0, count: 0 };
        groups.set(observation[key], { sum: group.sum + column[i], count: group.count + 1 });
      });
      column = column.map((value, i) => {
        const { sum, count } = groups.get(observations[i][key])!;
        moved = Math.max(moved, Math.abs(sum / count));
        return value - sum / count;
      });
    }
    if (moved < 1e-12) break;
  }
  return column;
}

/** Independent terms for subjects and periods: as many as there are, less one for each group that no observation connects. */
function termsOf(observations: readonly Observation[]): number {
  const nodes = new Map<string, string>();
  const rootOf = (node: string): string => {
    const parent = nodes.get(node) ?? node;
    return parent === node ? node : rootOf(parent);
  };
  for (const { subject, period } of observations) {
    const [a, b] = [`subject ${subject}`, `period ${period}`];
    nodes.set(a, nodes.get(a) ?? a);
    nodes.set(b, nodes.get(b) ?? b);
    nodes.set(rootOf(a), rootOf(b));
  }
  const groups = new Set([...nodes.keys()].map(rootOf));
  return nodes.size - groups.size;
}

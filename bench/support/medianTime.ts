/**
 * Median milliseconds of each job, the jobs taking turns so that a slow minute of the machine falls on all alike.
 *
 * Each job returns something; the returns are folded into `sink` so that the work can't be optimised away.
 */
export function medianTime<K extends string>(jobs: Record<K, () => unknown>, rounds: number): Record<K, number> {
  const names = Object.keys(jobs) as K[];
  const times = Object.fromEntries(names.map((name) => [name, [] as number[]])) as Record<K, number[]>;
  let sink = 0;
  for (let round = -1; round < rounds; round++) {
    for (const name of names) {
      const begun = performance.now();
      const result = jobs[name]();
      const took = performance.now() - begun;
      sink += typeof result === 'number' ? result : 1;
      if (round >= 0 || rounds === 1) times[name].push(took); // round -1 warms up
    }
  }
  if (Number.isNaN(sink)) throw new Error('a job returned NaN');
  const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1];
  return Object.fromEntries(names.map((name) => [name, median(times[name])])) as Record<K, number>;
}

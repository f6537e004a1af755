/** Runs of consecutive numbers in an ascending list. */
export function runsOf(numbers: readonly number[]): [first: number, last: number][] {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const run = runs[runs.length - 1];
    if (run !== undefined && number <= run[1] + 1) run[1] = number;
    else runs.push([number, number]);
  }
  return runs;
}

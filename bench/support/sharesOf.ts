import type { Profiler } from 'node:inspector';

/** The functions of a profile that have the most time to themselves, each with its share. */
export function sharesOf(profile: Profiler.Profile): [name: string, share: number][] {
  const names = new Map(profile.nodes.map(({ id, callFrame }) => [id, callFrame.functionName || 'a function in line']));
  const times = new Map<string, number>();
  let total = 0;
  profile.samples!.forEach((id, i) => {
    const name = names.get(id)!.replace('(garbage collector)', 'collecting garbage');
    const time = profile.timeDeltas![i];
    // what is not the program's, and the profiler's own
    if (/^\(|^dispatch$/.test(name)) return;
    times.set(name, (times.get(name) ?? 0) + time);
    total += time;
  });
  return [...times].map(([name, time]): [string, number] => [name, time / total]).sort(([, a], [, b]) => b - a);
}

import { type Profiler, Session } from 'node:inspector';

/** Where the processor's time of some work goes: the functions that have the most of it to themselves, each with its share. */
export async function profileOf(work: () => unknown, milliseconds: number): Promise<[name: string, share: number][]> {
  const session = new Session();
  session.connect();
  const post = <T>(method: string, params = {}) =>
    new Promise<T>((resolve, reject) => {
      session.post(method, params, (error, result) => (error ? reject(error) : resolve(result as T)));
    });
  await post('Profiler.enable');
  await post('Profiler.setSamplingInterval', { interval: 250 });
  await post('Profiler.start');
  for (const begun = performance.now(); performance.now() - begun < milliseconds; ) work();
  const { profile } = await post<Profiler.StopReturnType>('Profiler.stop');
  session.disconnect();
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

import { type Profiler, Session } from 'node:inspector';
import { sharesOf } from './sharesOf';

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
  return sharesOf(profile);
}

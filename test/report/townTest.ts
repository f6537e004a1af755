import { type Assessment, assess } from 'datumline';
import { demoRoute } from '../../examples/demo/demoRoute';
import { simulateRun } from '../support/simulateRun';

const places = ['handlebar', 'chest', 'helmet', 'backpack'];
const receivers = [
  { name: 'Alder', sigma: 1.2, bias: 0 },
  { name: 'Birch', sigma: 2.5, bias: 0 },
  { name: 'Cedar', sigma: 2, bias: -3 },
  { name: 'Downy oak', sigma: 4, bias: 2 },
];

/** A test of the size people make: the demo's seven stretches, four invented receivers, three runs, swapped between four places. */
export function townTest(): Assessment[] {
  const route = demoRoute();
  const tunnel = route.sections.find(({ name }) => name === 'tunnel')!;
  return [1, 2, 3].map((run) => {
    const silence = { from: tunnel.from / 5 + 20 * run, to: tunnel.to / 5 + 20 * run };
    const made = simulateRun(route, {
      seed: 700 + run,
      speed: 5,
      sharedSigma: 1,
      receivers: receivers.map((receiver) => ({ ...receiver, gaps: [silence] })),
    });
    const entries = made.map(({ recording }, k) => ({
      recording,
      receiver: receivers[k].name,
      placement: places[(k + run) % 4],
      run: `run ${run}`,
    }));
    return assess(route, entries);
  });
}

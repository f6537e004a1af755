import { circle } from '../../test/support/planeRoute';
import { type SimulatedRide, simulateRide } from '../../test/support/simulateRide';

/** Round and round a lap of 400 m, so many fixes. */
export function ringRide(fixes: number): SimulatedRide {
  const laps = Math.max(Math.round((3 * fixes) / 400), 1);
  return simulateRide(circle([0, 64], 63.66, -90, 360 * laps), { seed: 4 });
}

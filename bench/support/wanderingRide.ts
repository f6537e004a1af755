import { type SimulatedRide, simulateRide } from '../../test/support/simulateRide';

/** Along blocks that never come back, so many fixes. */
export function wanderingRide(fixes: number): SimulatedRide {
  const points = Array.from(
    { length: Math.max(Math.ceil(fixes / 66), 2) },
    (_, k) => [100 * k, k % 2 === 0 ? 0 : 173] as const,
  );
  return simulateRide(points, { seed: 4 });
}

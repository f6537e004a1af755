import type { Point } from './routePlane';
import type { Trace } from './Trace';

/** The line through points. */
export function traceOf(points: readonly Point[]): Trace {
  return { x: points.map(([x]) => x), y: points.map(([, y]) => y) };
}

import type { Position } from 'geojson';
import type { Drawing, StepPath } from './Drawing';
import type { DrawnEdge } from './handlesOf';
import { spliced } from './spliced';
import { spliceSteps } from './spliceSteps';
import { stepAt } from './stepsIn';

/** A drawing, and the point of it that an edit is about. */
export interface EditedPoint {
  readonly drawing: Drawing;
  readonly path: StepPath;
  readonly vertex?: number;
}

/** A point put into a drawn edge. A leg given by direction and distance becomes two straight ones to positions. */
export function insertPoint(drawing: Drawing, { path, vertex, to }: DrawnEdge, position: Position): EditedPoint {
  const step = stepAt(drawing, path);
  if (step?.call === 'follow' && vertex !== undefined) {
    const line = spliced(step.line, vertex, 0, position);
    return { drawing: spliceSteps(drawing, path, 1, { ...step, line }), path, vertex };
  }
  if (step?.call === 'lineBy') {
    const legs = [position, to].map((end) => ({ call: 'lineTo', position: end }) as const);
    return { drawing: spliceSteps(drawing, path, 1, ...legs), path };
  }
  return { drawing: spliceSteps(drawing, path, 0, { call: 'lineTo', position }), path };
}

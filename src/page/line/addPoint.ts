import type { Position } from 'geojson';
import type { Drawing, StepPath } from './Drawing';
import { spliceSteps } from './spliceSteps';
import { walkSteps } from './walkSteps';

/** A drawing, and the step of it that an edit is about. */
export interface Edited {
  readonly drawing: Drawing;
  readonly path: StepPath;
}

/**
 * A point more: the start where there is none yet, else a straight leg to it, after the step at `after` or as the last.
 */
export function addPoint(drawing: Drawing, position: Position, after: StepPath = [drawing.steps.length - 1]): Edited {
  const path = [...after.slice(0, -1), after[after.length - 1] + 1];
  let begun = false;
  for (const { step } of walkSteps(drawing)) begun ||= step.call === 'start' || step.call === 'follow';
  const step = begun ? ({ call: 'lineTo', position } as const) : ({ call: 'start', position } as const);
  return { drawing: spliceSteps(drawing, path, 0, step), path };
}

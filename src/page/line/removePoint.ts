import type { RecipeStep } from 'datumline';
import type { Drawing, StepPath } from './Drawing';
import type { Handle } from './handlesOf';
import { spliced } from './spliced';
import { spliceSteps } from './spliceSteps';
import { NAMES, siblingsOf, stepAt } from './stepsIn';

/**
 * A point, or a whole step, taken out. Where the start goes, the straight leg after it begins the line; laps and ways out and
 * back that are left with no step go too. Of a line that is followed at most all but two points go, and of a ring all but three.
 */
export function removePoint(drawing: Drawing, { path, vertex }: Pick<Handle, 'path' | 'vertex'>): Drawing {
  const step = stepAt(drawing, path);
  if (step === undefined) return drawing;
  if (vertex !== undefined && step.call === 'follow') {
    if (step.line.length <= 2) return removeStep(drawing, path);
    return spliceSteps(drawing, path, 1, { ...step, line: spliced(step.line, vertex, 1) });
  }
  if (vertex !== undefined && step.call === 'section' && step.inside?.type === 'Polygon') {
    let before = 0;
    const coordinates = step.inside.coordinates.map((ring) => {
      const k = vertex - before;
      before += ring.length;
      if (k < 0 || k >= ring.length || ring.length <= 4) return ring;
      const open = spliced(ring.slice(0, -1), k, 1);
      return [...open, open[0]];
    });
    return spliceSteps(drawing, path, 1, { ...step, inside: { ...step.inside, coordinates } });
  }
  return removeStep(drawing, path);
}

function removeStep(drawing: Drawing, path: StepPath): Drawing {
  const step = stepAt(drawing, path);
  const outer = path.slice(0, -1);
  const siblings = siblingsOf(drawing, path);
  if (siblings.length === 1 && outer.length > 0) return removeStep(drawing, outer);
  const index = path[path.length - 1];
  if (step?.call === 'start') {
    const next = siblings.findIndex(({ call }, i) => i > index && !NAMES.includes(call));
    const leg: RecipeStep | undefined = siblings[next];
    if (leg?.call === 'lineTo') {
      const begun = spliceSteps(drawing, [...outer, next], 1);
      return spliceSteps(begun, path, 1, { call: 'start', position: leg.position });
    }
  }
  return spliceSteps(drawing, path, 1);
}

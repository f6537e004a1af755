import type { Position } from 'geojson';
import type { Drawing, StepPath } from './Drawing';
import type { LaidOut } from './layOut';
import { walkSteps } from './walkSteps';

/** A point that can be taken hold of. */
export interface Handle {
  readonly path: StepPath;
  /** Of a line that is followed, or of the rings of an area: which of its points, counted through. */
  readonly vertex?: number;
  readonly position: Position;
  readonly kind: 'point' | 'line' | 'area' | 'mark';
}

/** A drawn edge: a click on it puts a point into it, before `path`, or as vertex `vertex` of the line there. */
export interface DrawnEdge {
  readonly path: StepPath;
  readonly vertex?: number;
  readonly from: Position;
  readonly to: Position;
}

/** Every point that can be taken hold of, and the drawn edges between them. */
export interface Handles {
  readonly handles: readonly Handle[];
  readonly edges: readonly DrawnEdge[];
}

/**
 * What of a drawing lies where.
 *
 * @param laid - As it was built, where it could be: the ends of legs given by a direction or a curve come from there.
 */
export function handlesOf(drawing: Drawing, laid: LaidOut | null): Handles {
  const handles: Handle[] = [];
  const edges: DrawnEdge[] = [];
  /** Where the step before ended; undefined where only building could tell, and did not. */
  let pen: Position | undefined;
  for (const { path, step } of walkSteps(drawing)) {
    switch (step.call) {
      case 'start':
        handles.push({ path, position: step.position, kind: 'point' });
        pen = step.position;
        break;
      case 'lineTo':
        if (pen) edges.push({ path, from: pen, to: step.position });
        handles.push({ path, position: step.position, kind: 'point' });
        pen = step.position;
        break;
      case 'follow':
        step.line.forEach((position, vertex) => {
          if (vertex > 0) edges.push({ path, vertex, from: step.line[vertex - 1], to: position });
          handles.push({ path, vertex, position, kind: 'line' });
        });
        pen = laid?.ends.get(path.join('.'));
        break;
      case 'lineBy': {
        const end = laid?.ends.get(path.join('.'));
        if (pen && end) edges.push({ path, from: pen, to: end });
        if (end) handles.push({ path, position: end, kind: 'point' });
        pen = end;
        break;
      }
      case 'arc':
      case 'uTurn':
      case 'moveOver':
        pen = laid?.ends.get(path.join('.'));
        if (pen) handles.push({ path, position: pen, kind: 'point' });
        break;
      case 'mark':
        if (step.near) handles.push({ path, position: step.near, kind: 'mark' });
        break;
      case 'section': {
        const rings =
          step.inside?.type === 'Polygon' ? step.inside.coordinates : (step.inside?.coordinates.flat() ?? []);
        let vertex = 0;
        for (const ring of rings)
          for (const [k, position] of ring.entries()) {
            // the last of a ring is its first again
            if (k < ring.length - 1) handles.push({ path, vertex, position, kind: 'area' });
            vertex++;
          }
        break;
      }
    }
  }
  return { handles, edges };
}

import { inverse } from 'datumline';
import type { Polygon, Position } from 'geojson';
import type { Drawing } from './Drawing';
import type { Handle } from './handlesOf';
import { spliced } from './spliced';
import { spliceSteps } from './spliceSteps';
import { stepAt } from './stepsIn';

/**
 * A point of the drawing moved. A height that it had stays; a leg given by direction and distance gets those that lead there.
 *
 * @param from - Where the leg begins, for one given by direction and distance.
 * @returns the same drawing where the point is the end of a curve, which nothing but its numbers can move
 */
export function movePoint(
  drawing: Drawing,
  { path, vertex }: Pick<Handle, 'path' | 'vertex'>,
  to: Position,
  from?: Position,
): Drawing {
  const step = stepAt(drawing, path);
  const moved = (old: Position): Position => (old.length > 2 ? [to[0], to[1], ...old.slice(2)] : to);
  switch (step?.call) {
    case 'start':
    case 'lineTo':
      return spliceSteps(drawing, path, 1, { ...step, position: moved(step.position) });
    case 'mark':
      return spliceSteps(drawing, path, 1, { ...step, near: to });
    case 'lineBy': {
      if (from === undefined) return drawing;
      const { initialAzimuth, distance } = inverse(from, to);
      if (!(distance > 0)) return drawing;
      return spliceSteps(drawing, path, 1, { ...step, azimuth: initialAzimuth, distance });
    }
    case 'follow':
      if (vertex === undefined) return drawing;
      return spliceSteps(drawing, path, 1, { ...step, line: spliced(step.line, vertex, 1, moved(step.line[vertex])) });
    case 'section': {
      const { inside } = step;
      if (inside === undefined || vertex === undefined) return drawing;
      let before = 0;
      const polygon = (rings: Polygon['coordinates']) =>
        rings.map((ring) => {
          const k = vertex - before;
          before += ring.length;
          if (k < 0 || k >= ring.length) return ring;
          // a ring ends where it begins
          return ring.map((position, i) =>
            i === k || (k === 0 && i === ring.length - 1) ? moved(position) : position,
          );
        });
      const area =
        inside.type === 'Polygon'
          ? { ...inside, coordinates: polygon(inside.coordinates) }
          : { ...inside, coordinates: inside.coordinates.map(polygon) };
      return spliceSteps(drawing, path, 1, { ...step, inside: area });
    }
  }
  return drawing;
}

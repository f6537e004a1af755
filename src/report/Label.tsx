import { type Content, element } from './element';
import type { Point } from './routePlane';

/** Words centred on a point of a picture, with a halo that keeps them readable over lines. */
export function Label({ at, looks, children }: { at: Point; looks: string; children?: Content }): Content {
  const [x, y] = at.map((value) => value.toFixed(1));
  return (
    <text class={`dl-halo ${looks}`} x={x} y={y} dy=".35em" text-anchor="middle">
      {children}
    </text>
  );
}

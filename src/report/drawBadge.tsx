import { element } from './element';
import type { Markup } from './Markup';
import type { Point } from './routePlane';

/** The number of a place, in a ring. */
export function drawBadge(number: number, [x, y]: Point): Markup {
  return (
    <g class="dl-place" data-place={number} transform={`translate(${x.toFixed(1)},${y.toFixed(1)})`}>
      <circle class="dl-badge" r={8.5} />
      <text class="dl-small dl-strong" text-anchor="middle" dy=".36em">
        {number}
      </text>
    </g>
  );
}

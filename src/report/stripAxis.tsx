import { ticks } from 'd3-array';
import { type Content, element, fragment } from './element';
import { linearScale } from './linearScale';
import type { StripPanel, StripView } from './StripView';
import { showNumber } from './showFigures';

/** Metres along-track below the last panel of a strip chart. */
export function stripAxis({ count }: StripView, { from, to, width }: StripPanel): Content {
  const base = count === 'from start' ? 0 : from;
  const scale = linearScale([from - base, to - base], [0, width]);
  const shown = ticks(...scale.domain, Math.max(2, Math.floor(width / 120)));
  return (
    <>
      <path class="dl-axis" d={shown.map((tick) => `M${scale(tick).toFixed(1)},0v4`).join('')} />
      {shown.map((tick) => {
        const x = scale(tick);
        return (
          <text
            class="dl-small dl-soft"
            x={x.toFixed(1)}
            y={16}
            text-anchor={x < 12 ? 'start' : x > width - 16 ? 'end' : 'middle'}
          >
            {showNumber(tick, 0)}
          </text>
        );
      })}
      <text class="dl-small dl-soft" x={width / 2} y={31} text-anchor="middle">
        {count === 'from start' ? 'metres along the route' : 'metres from the beginning of the stretch'}
      </text>
    </>
  );
}

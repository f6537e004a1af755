import { nice, ticks as ticksBetween } from 'd3-array';
import { quantileIn } from '../statistics';
import { element, fragment } from './element';
import { linearScale } from './linearScale';
import type { Picture } from './Picture';
import { receiverLooks } from './receiverLooks';
import type { Receiver } from './reportModel';
import { showMetres, showNumber, showShare } from './showFigures';
import type { TimedStrand } from './timedStrands';

const SIZE = 300;
const MARGIN = 26;
/** Pixels of a dot, and of the cells of which each holds one at most. */
const DOT = 2;
const CELL = 2.5;

/** Metres that every receiver's scatter shows to each side: the same for all, so that they can be compared. */
export function scatterReach(strands: readonly TimedStrand[]): number {
  const radii = strands.flatMap(({ rows }) => rows.get(null)?.ce95 ?? []);
  const far = strands.map(({ recording }) => {
    const errors = recording.horizontal.flatMap((error) => error ?? []);
    return errors.length === 0 ? 0 : quantileIn(Float64Array.from(errors), 0.98);
  });
  return nice(0, Math.max(1, 1.1 * Math.max(0, ...radii), Math.max(0, ...far)), 4)[1];
}

/** Where a receiver's fixes lay about the true place, ahead of it up, right of it to the right, and the ring of CE95. */
export function drawScatter(
  receiver: Receiver,
  strands: readonly TimedStrand[],
  ce95: number | null,
  reach: number,
): Picture {
  const middle = SIZE / 2;
  const scale = linearScale([-reach, reach], [MARGIN, SIZE - MARGIN]);
  const radius = (metres: number) => scale(metres) - scale(0);
  const drawn = new Set<string>();
  let dots = '';
  let [all, beyond] = [0, 0];
  for (const { recording } of strands) {
    recording.along.forEach((along, second) => {
      const across = recording.across[second];
      if (along === null || across === null) return;
      all++;
      if (Math.max(Math.abs(along), Math.abs(across)) > reach) {
        beyond++;
        return;
      }
      const [x, y] = [scale(across), SIZE - scale(along)];
      const cell = `${Math.round(x / CELL)} ${Math.round(y / CELL)}`;
      if (drawn.has(cell)) return;
      drawn.add(cell);
      dots += `M${x.toFixed(1)},${y.toFixed(1)}h0`;
    });
  }
  const doubt = Math.max(0, ...strands.map(({ rows }) => rows.get(null)?.doubt95 ?? 0));
  const ticks = ticksBetween(-reach, reach, 4).filter((tick) => tick !== 0);
  return {
    width: SIZE,
    height: SIZE,
    title: `${receiver.label}: where it was told to be, about the true place`,
    description: [
      `A dot for each place of ${showCounted(all)}, ahead of the true place up, right of it to the right, to ${showMetres(reach)} either way.`,
      ce95 === null ? '' : `The ring is CE95, ${showMetres(ce95)}.`,
      doubt > 0 ? `The disc is the uncertainty of the truth, ${showMetres(doubt)}.` : '',
      beyond > 0 ? `${showShare(beyond / all)} lie further out and are not drawn.` : '',
    ]
      .filter(Boolean)
      .join(' '),
    content: (
      <>
        {doubt > 0 && <circle class="dl-doubt" cx={middle} cy={middle} r={radius(doubt).toFixed(1)} />}
        <path class="dl-rule" d={`M${MARGIN},${middle}H${SIZE - MARGIN}M${middle},${MARGIN}V${SIZE - MARGIN}`} />
        <path
          {...receiverLooks(receiver).stroke}
          stroke-width={DOT}
          stroke-linecap="round"
          stroke-opacity={0.65}
          fill="none"
          d={dots}
        />
        {ce95 !== null && (
          <circle class="dl-reference" stroke-width={1.6} cx={middle} cy={middle} r={radius(ce95).toFixed(1)} />
        )}
        {ticks.map((tick) => (
          <>
            <path
              class="dl-axis"
              d={`M${scale(tick).toFixed(1)},${middle - 3}v6M${middle - 3},${scale(tick).toFixed(1)}h6`}
            />
            <text class="dl-small dl-soft dl-halo" x={scale(tick).toFixed(1)} y={middle + 14} text-anchor="middle">
              {showNumber(Math.abs(tick), Math.abs(tick) % 1 === 0 ? 0 : 1)}
            </text>
          </>
        ))}
        {[
          { word: 'ahead', x: middle, y: 14, anchor: 'middle' },
          { word: 'behind', x: middle, y: SIZE - 6, anchor: 'middle' },
          { word: 'left', x: MARGIN, y: middle - 6, anchor: 'start' },
          { word: 'right', x: SIZE - MARGIN, y: middle - 6, anchor: 'end' },
        ].map(({ word, x, y, anchor }) => (
          <text class="dl-small dl-soft dl-halo" x={x} y={y} text-anchor={anchor}>
            {word}
          </text>
        ))}
      </>
    ),
  };
}

function showCounted(seconds: number): string {
  return `${showNumber(seconds, 0)} seconds while moving`;
}

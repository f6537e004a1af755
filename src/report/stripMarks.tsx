import { drawBadge } from './drawBadge';
import { type Content, element, fragment } from './element';
import { boxAbout } from './labelBox';
import { offsetRuns } from './offsetRuns';
import { placeLabels } from './placeLabels';
import type { Place, ReportModel } from './reportModel';
import type { Point } from './routePlane';
import { runLabels } from './runLabels';
import type { StripPanel } from './StripView';
import { showMetres } from './showFigures';

/** What is written into a panel: figures that don't fit it, numbers of the worst places, names of runs where they leave room. */
export function stripMarks(model: ReportModel, panel: StripPanel, places: readonly Place[]): Content {
  const { x, y, from, to, height, strands } = panel;
  const edges = edgeMarks(panel);
  const here = places.flatMap(({ number, strayings }) => {
    const mine = strayings.find(
      ({ strand, excursion: { peakAt } }) => strands.includes(strand) && peakAt >= from && peakAt <= to,
    );
    return mine ? [{ number, excursion: mine.excursion }] : [];
  });
  const figures = edges.map(({ x: at, offset, writes }) => ({
    left: writes === 'after' ? at - 5 : at - 75,
    right: writes === 'after' ? at + 75 : at + 5,
    top: offset < 0 ? 0 : height - 14,
    bottom: offset < 0 ? 14 : height,
  }));
  const spots = placeLabels(
    here.map(({ excursion: { peakAt, peak } }) => ({
      at: [x(peakAt), Math.min(height - 12, Math.max(12, y(peak)))] as Point,
      width: 18,
      height: 18,
      towards: [0, peak < 0 ? -1 : 1] as Point,
    })),
    panel,
    [],
    figures,
    'set anyhow',
  );
  const rings = spots.flatMap((spot) => (spot ? [boxAbout(spot, 9)] : []));
  return (
    <>
      {edges.map((edge) => edgeMark(edge, height))}
      {here.map(({ number }, i) => spots[i] && drawBadge(number, spots[i]))}
      {runLabels(model, panel, [...figures, ...rings])}
    </>
  );
}

interface EdgeMark {
  readonly x: number;
  readonly offset: number;
  /** Side of the arrow head its figure is written on. */
  readonly writes: 'after' | 'before';
}

/** Where an offset is further off than the panel shows: the worst of each run of such offsets, none closer than 50 px. */
function edgeMarks({ strands, from, to, x, reach }: StripPanel): EdgeMark[] {
  const marks: [alongTrack: number, offset: number][] = [];
  for (const { along, offset } of strands.flatMap((strand) => offsetRuns(strand, from, to))) {
    let worst = -1;
    for (let i = 0; i <= along.length; i++) {
      if (Math.abs(offset[i]) > reach) worst = worst >= 0 && Math.abs(offset[worst]) >= Math.abs(offset[i]) ? worst : i;
      else if (worst >= 0) {
        marks.push([along[worst], offset[worst]]);
        worst = -1;
      }
    }
  }
  marks.sort((a, b) => Math.abs(b[1]) - Math.abs(a[1]));
  const kept: EdgeMark[] = [];
  for (const [s, offset] of marks) {
    if (kept.some((mark) => Math.abs(mark.x - x(s)) < 50)) continue;
    kept.push({ x: x(s), offset, writes: x(s) < x(to) - 70 ? 'after' : 'before' });
  }
  return kept;
}

/** An arrow head at the edge with the figure that doesn't fit. */
function edgeMark({ x, offset, writes }: EdgeMark, height: number): Content {
  return (
    <>
      <path
        class="dl-solid"
        d={offset < 0 ? `M${x.toFixed(1)},2l-4,7h8z` : `M${x.toFixed(1)},${height - 2}l-4,-7h8z`}
      />
      <text
        class="dl-halo dl-small"
        x={(x + (writes === 'after' ? 7 : -7)).toFixed(1)}
        y={offset < 0 ? 10 : height - 4}
        text-anchor={writes === 'after' ? 'start' : 'end'}
      >
        to {showMetres(Math.abs(offset))}
      </text>
    </>
  );
}

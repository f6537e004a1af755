import { MEAN_RADIUS, RADIAN } from '../geodesy';
import type { AssessedRoute, DrawnLine, Exclusion } from './Assessment';
import type { Companion } from './companionOffsets';
import { drawnLine, round } from './drawnLine';
import { statedUncertainty } from './measureRow';
import type { RouteGrid } from './RouteGrid';

/** The reference as it was judged against, with what the pictures need of it. */
export function describeRoute(
  grid: RouteGrid,
  excluded: readonly Exclusion[],
  decoy: Companion | undefined,
  centreline: Companion | undefined,
): AssessedRoute {
  const { route } = grid;
  return {
    name: route.name ?? null,
    length: route.length,
    sections: route.sections.map((section) => {
      const { first, end } = grid.range(section.from, section.to);
      return {
        name: section.name,
        from: section.from,
        to: section.to,
        halfWidth: section.halfWidth ?? null,
        environment: section.environment ?? null,
        lap: section.lap ?? null,
        lateral95: statedUncertainty(grid, first, end),
      };
    }),
    marks: route.marks.map(({ name, alongTrack }) => ({ name, alongTrack })),
    bins: Array.from(grid.edges),
    line: drawnLine(route, 0.05),
    corridor: route.sections.flatMap(({ name, halfWidth, from, to }) =>
      halfWidth === undefined
        ? []
        : [
            {
              section: name,
              halfWidth,
              left: besideRoute(grid, from, to, -halfWidth),
              right: besideRoute(grid, from, to, halfWidth),
            },
          ],
    ),
    decoy: decoy ? drawnLine(decoy.line, 0.2) : null,
    centreline: centreline ? drawnLine(centreline.line, 0.2) : null,
    decoyOffsets: decoy ? toPlain(decoy.offset) : null,
    centrelineOffsets: centreline ? toPlain(centreline.offset) : null,
    provenance: route.provenance,
    excluded,
  };
}

/** To the millimetre, null for NaN. */
function toPlain(column: Float64Array): (number | null)[] {
  return Array.from(column, (value) => (Number.isNaN(value) ? null : round(value, 3)));
}

/** The line so many metres right of a stretch, for drawing. */
function besideRoute(grid: RouteGrid, from: number, to: number, right: number): DrawnLine {
  const { first, end } = grid.range(from, to);
  const bins = Array.from({ length: end - first }, (_, i) => first + i);
  return drawnLine(
    {
      lon: bins.map(
        (k) => grid.lon[k] + (right * grid.rightEast[k]) / (MEAN_RADIUS * RADIAN * Math.cos(grid.lat[k] * RADIAN)),
      ),
      lat: bins.map((k) => grid.lat[k] + (right * grid.rightNorth[k]) / (MEAN_RADIUS * RADIAN)),
      alongTrack: bins.map((k) => grid.middle[k]),
    },
    0.05,
  );
}

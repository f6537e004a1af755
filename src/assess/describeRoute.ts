import { ofRoute, type Route } from '../model';
import { sectionEdges } from '../route';
import type { AssessedArea, AssessedRoute, Exclusion } from './Assessment';
import type { Companion } from './companionOffsets';
import { drawnLine } from './drawnLine';
import { statedUncertainty } from './measureRow';
import { plainColumn } from './plainColumn';
import type { RouteGrid } from './RouteGrid';

/** The reference as it was judged against, with what the pictures need of it but for the bins. */
export function describeRoute(
  grid: RouteGrid,
  excluded: readonly Exclusion[],
  decoy: Companion | undefined,
  centreline: Companion | undefined,
  areas: readonly AssessedArea[] | null,
): Omit<AssessedRoute, 'bins'> {
  const { route } = grid;
  return {
    name: route.name ?? null,
    length: route.length,
    sections: route.sections.map((section) => {
      return {
        name: section.name,
        from: section.from,
        to: section.to,
        halfWidth: section.halfWidth ?? null,
        environment: section.environment ?? null,
        lap: section.lap ?? null,
        lateral95: statedUncertainty(grid, grid.range(section.from, section.to)),
      };
    }),
    marks: route.marks.map(({ name, alongTrack }) => ({ name, alongTrack })),
    line: ofRoute(route, drawnRoute),
    corridor: ofRoute(route, drawnCorridor),
    decoy: decoy ? drawnLine(decoy.line, 0.2) : null,
    centreline: centreline ? drawnLine(centreline.line, 0.2) : null,
    decoyOffsets: decoy ? plainColumn(decoy.offset, 3) : null,
    centrelineOffsets: centreline ? plainColumn(centreline.offset, 3) : null,
    provenance: route.provenance,
    excluded,
    areas,
  };
}

function drawnRoute(route: Route): AssessedRoute['line'] {
  return drawnLine(route, 0.05);
}

function drawnCorridor(route: Route): AssessedRoute['corridor'] {
  return route.sections.flatMap((section) => {
    const edges = sectionEdges(route, section);
    if (!edges) return [];
    const { name, halfWidth } = section;
    return [
      {
        section: name,
        halfWidth: halfWidth!,
        left: drawnLine(edges.left, 0.05),
        right: drawnLine(edges.right, 0.05),
      },
    ];
  });
}

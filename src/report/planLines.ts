import type { GroundShape } from './groundShapes';
import type { ReportModel } from './reportModel';
import type { Point, RoutePlane } from './routePlane';

/** What every plan of one report is drawn from, in metres east and north. */
export interface PlanLines {
  readonly corridor: readonly (readonly Point[])[];
  /** What lies under: areas and surroundings. */
  readonly ground: readonly GroundShape[];
  readonly asides: readonly (readonly Point[])[];
  /** By strand: its pieces. */
  readonly strands: readonly (readonly (readonly Point[])[])[];
}

/** The lines of all plans, brought into the plane once. */
export function planLines(model: ReportModel, plane: RoutePlane, ground: readonly GroundShape[]): PlanLines {
  const { route, strands } = model;
  return {
    corridor: route.corridor.map(({ left, right }) => [
      ...plane.lineToPlane(left),
      ...plane.lineToPlane(right).reverse(),
    ]),
    ground,
    asides: [route.decoy, route.centreline].flatMap((line) => (line ? [plane.lineToPlane(line)] : [])),
    strands: strands.map(({ recording }) => recording.pieces.map(plane.lineToPlane)),
  };
}

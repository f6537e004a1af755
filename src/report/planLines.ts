import type { ReportModel } from './reportModel';
import type { Point, RoutePlane } from './routePlane';

/** What every plan of one report is drawn from, in metres east and north. */
export interface PlanLines {
  readonly corridor: readonly (readonly Point[])[];
  readonly asides: readonly (readonly Point[])[];
  /** By strand: its pieces. */
  readonly strands: readonly (readonly (readonly Point[])[])[];
}

/** The lines of all plans, brought into the plane once. */
export function planLines({ route, strands }: ReportModel, plane: RoutePlane): PlanLines {
  return {
    corridor: route.corridor.map(({ left, right }) => [
      ...plane.lineToPlane(left),
      ...plane.lineToPlane(right).reverse(),
    ]),
    asides: [route.decoy, route.centreline].flatMap((line) => (line ? [plane.lineToPlane(line)] : [])),
    strands: strands.map(({ recording }) => recording.pieces.map(plane.lineToPlane)),
  };
}

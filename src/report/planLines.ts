import type { GroundShape } from './groundShapes';
import type { ReportModel } from './reportModel';
import type { RoutePlane } from './routePlane';
import type { Trace } from './Trace';
import { thereAndBack } from './thereAndBack';

/** A piece of a recording, and how many metres along the route each of its points lies; null off it. */
export interface StrandTrace extends Trace {
  readonly along: readonly (number | null)[];
}

/** What every plan of one report is drawn from, in metres east and north. */
export interface PlanLines {
  readonly corridor: readonly Trace[];
  /** What lies under: areas and surroundings. */
  readonly ground: readonly GroundShape[];
  readonly asides: readonly Trace[];
  /** By strand: its pieces. */
  readonly strands: readonly (readonly StrandTrace[])[];
}

/** The lines of all plans, brought into the plane once. */
export function planLines(model: ReportModel, plane: RoutePlane, ground: readonly GroundShape[]): PlanLines {
  const { route, strands } = model;
  return {
    corridor: route.corridor.map(({ left, right }) => thereAndBack(plane.lineToPlane(left), plane.lineToPlane(right))),
    ground,
    asides: [route.decoy, route.centreline].flatMap((line) => (line ? [plane.lineToPlane(line)] : [])),
    strands: strands.map(({ recording }) =>
      recording.pieces.map((piece) => ({ ...plane.lineToPlane(piece), along: piece.alongTrack })),
    ),
  };
}

import type { Line } from '../model';

/** A line beside the route. */
export type CompanionLine = Line;

import type { routeFromLine } from '../route';

/** A line beside the route, in any form {@link routeFromLine} takes. */
export type CompanionLine = Parameters<typeof routeFromLine>[0];

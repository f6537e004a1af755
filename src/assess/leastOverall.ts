/** From so many compared on, "at least one differs" is a finding of its own. */
export const LEAST_OVERALL = 4;

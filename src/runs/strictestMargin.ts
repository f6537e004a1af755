import type { Assessment } from '../assess';

/** Metres within which a difference counts as none: of several margins of equivalence the narrowest. */
export function strictestMargin(assessments: readonly Assessment[]): number {
  return Math.min(...assessments.map(({ method }) => method.options.equivalence));
}

import type { TakenFigures } from './TakenFigures';

/** Metres within which a difference counts as none: of several margins of equivalence the narrowest. */
export function strictestMargin(assessments: readonly Pick<TakenFigures, 'method'>[]): number {
  return Math.min(...assessments.map(({ method }) => method.options.equivalence));
}

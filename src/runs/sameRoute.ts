import type { TakenFigures } from './TakenFigures';

/** Metres: engines that draw one route differ by far less. */
const METRES = 1e-3;

/** Degrees: a unit of the seventh decimal, to which an assessment gives the line. */
const DEGREES = 1.5e-7;

/**
 * Whether two assessments, or their figures, are of one route: of one recipe, or of recipes that draw the same line with the same sections, on
 * whatever engine.
 */
export function sameRoute(
  a: Pick<TakenFigures, 'route' | 'method'>,
  b: Pick<TakenFigures, 'route' | 'method'>,
): boolean {
  if (a.method.inputs[0].hash === b.method.inputs[0].hash) return true;
  const [one, other] = [a.route, b.route];
  return (
    Math.abs(one.length - other.length) <= METRES &&
    alike(
      one.sections,
      other.sections,
      (section, beside) =>
        section.name === beside.name &&
        section.lap === beside.lap &&
        section.halfWidth === beside.halfWidth &&
        Math.abs(section.from - beside.from) <= METRES &&
        Math.abs(section.to - beside.to) <= METRES,
    ) &&
    alike(one.line.lon, other.line.lon, near) &&
    alike(one.line.lat, other.line.lat, near)
  );
}

function near(degrees: number, others: number): boolean {
  return Math.abs(degrees - others) <= DEGREES;
}

function alike<T>(ones: readonly T[], others: readonly T[], same: (one: T, other: T) => boolean): boolean {
  return ones.length === others.length && ones.every((one, i) => same(one, others[i]));
}

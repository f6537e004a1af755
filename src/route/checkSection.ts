import { checkNumber, checkPosition, InputError, type SectionOptions } from '../model';

/**
 * Refuses options of a section that contradict each other or themselves.
 *
 * @throws {InputError} naming the call and the option
 */
export function checkSection(options: SectionOptions, call: string): void {
  const { halfWidth, environment, from, to, inside } = options;
  if (halfWidth !== undefined) checkNumber(halfWidth, `${call} halfWidth`, { above: 0 });
  if (environment !== undefined && typeof environment !== 'string') {
    throw new InputError({ reason: 'wrong-type', argument: `${call} environment`, rule: 'a text', value: environment });
  }
  if ((from === undefined) !== (to === undefined)) {
    const missing = from === undefined ? 'from' : 'to';
    throw new InputError({ reason: 'missing', argument: `${call} ${missing}`, rule: 'given too', value: undefined });
  }
  if (from !== undefined) {
    checkNumber(from, `${call} from`, { min: 0 });
    checkNumber(to, `${call} to`, { min: from });
  }
  if (inside === undefined) return;
  if (from !== undefined) {
    throw new InputError({
      reason: 'misplaced',
      argument: `${call} inside`,
      rule: 'without from and to',
      value: inside,
    });
  }
  const polygons: unknown =
    inside?.type === 'Polygon'
      ? [inside.coordinates]
      : inside?.type === 'MultiPolygon'
        ? inside.coordinates
        : undefined;
  if (!Array.isArray(polygons)) {
    throw new InputError({
      reason: 'wrong-type',
      argument: `${call} inside`,
      rule: 'a GeoJSON Polygon',
      value: inside,
    });
  }
  polygons.flat(1).forEach((ring: unknown, i) => {
    if (!Array.isArray(ring) || ring.length < 4) {
      throw new InputError({
        reason: 'too-few',
        argument: `${call} inside ring ${i}`,
        rule: 'a ring of at least 4 positions',
        value: ring,
      });
    }
    ring.forEach((position, k) => {
      checkPosition(position, `${call} inside ring ${i}[${k}]`);
    });
  });
}

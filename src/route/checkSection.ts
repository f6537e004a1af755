import { unwrapLongitude } from '../geodesy';
import { checkNumber, checkString, InputError, type SectionOptions } from '../model';
import { positionOf } from './positionOf';

/**
 * Refuses options of a section that contradict each other or themselves.
 *
 * @throws {InputError} naming the call and the option
 */
export function checkSection(options: SectionOptions, call: string): void {
  const { halfWidth, environment, from, to, inside } = options;
  if (halfWidth !== undefined) checkNumber(halfWidth, `${call} halfWidth`, { above: 0 });
  if (environment !== undefined) checkString(environment, `${call} environment`);
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
  const { type, coordinates }: { type?: unknown; coordinates?: unknown } = inside ?? {};
  if (!(type === 'Polygon' || type === 'MultiPolygon') || !Array.isArray(coordinates)) {
    const rule = 'a GeoJSON Polygon or MultiPolygon';
    throw new InputError({ reason: 'wrong-type', argument: `${call} inside`, rule, value: inside });
  }
  const polygons: readonly unknown[] = type === 'Polygon' ? [coordinates] : coordinates;
  let count = 0;
  for (const polygon of polygons) {
    if (!Array.isArray(polygon) || polygon.length === 0) {
      const rule = 'polygons of at least one ring';
      throw new InputError({ reason: 'too-few', argument: `${call} inside`, rule, value: polygon });
    }
    for (const ring of polygon) checkRing(ring, `${call} inside ring ${count++}`);
  }
}

function checkRing(ring: unknown, argument: string): void {
  if (!Array.isArray(ring) || ring.length < 4) {
    throw new InputError({ reason: 'too-few', argument, rule: 'a ring of at least 4 positions', value: ring });
  }
  let longitude = ring[0]?.[0];
  for (let k = 0; k < ring.length; k++) {
    const position = positionOf(ring[k], `${argument}[${k}]`);
    longitude = unwrapLongitude(position[0], longitude);
  }
  const [first, last] = [ring[0], ring[ring.length - 1]];
  if (longitude === first[0] && last[1] === first[1]) return;
  const rule = 'a ring that ends where it begins, without going round a pole';
  throw new InputError({ reason: 'misplaced', argument, rule, value: last });
}

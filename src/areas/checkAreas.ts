import type { Position } from 'geojson';
import { unwrapLongitude } from '../geodesy';
import {
  checkArray,
  checkChoice,
  checkMembers,
  checkNumber,
  checkPosition,
  checkString,
  InputError,
  type MemberKeys,
} from '../model';
import type { Area, AreaKind } from './Area';
import type { AreaPolygon, AreaRings } from './AreaRings';
import { ringCrossing } from './ringCrossing';

const keys: MemberKeys<Area> = { name: 'must', kind: 'must', geometry: 'must', doubt95: 'may', issues: 'may' };

export const AREA_KINDS: readonly AreaKind[] = ['allowed', 'impossible'];

/**
 * The polygons of areas, those of one name together.
 *
 * @throws {InputError} naming the ring and the place in it: `areas[0].geometry.coordinates[0]`
 */
export function checkAreas(given: readonly Area[], argument: string): AreaRings {
  checkArray(given, argument);
  if (given.length === 0) {
    throw new InputError({ reason: 'too-few', argument, rule: 'at least one area', value: given });
  }
  const numbers = new Map<string, number>();
  const areas: { name: string; kind: AreaKind }[] = [];
  const polygons: AreaPolygon[] = [];
  given.forEach((area: unknown, i) => {
    const path = `${argument}[${i}]`;
    checkMembers<Area>(area, keys, path);
    checkString(area.name, `${path}.name`, { min: 1 });
    const kind = checkChoice(area.kind, `${path}.kind`, AREA_KINDS);
    const doubt95 = area.doubt95 === undefined ? 0 : checkNumber(area.doubt95, `${path}.doubt95`, { min: 0 });
    let number = numbers.get(area.name);
    if (number === undefined) {
      number = areas.push({ name: area.name, kind }) - 1;
      numbers.set(area.name, number);
    } else if (areas[number].kind !== kind) {
      throw new InputError({
        reason: 'ambiguous',
        argument: `${path}.kind`,
        rule: `'${areas[number].kind}', as of the other areas called “${area.name}”`,
        value: kind,
      });
    }
    const before = polygons.length;
    gather(area.geometry, `${path}.geometry`, (rings) => polygons.push({ area: number, doubt95, rings }));
    if (polygons.length === before) {
      throw new InputError({
        reason: 'too-few',
        argument: `${path}.geometry`,
        rule: 'at least one polygon',
        value: area.geometry,
      });
    }
  });
  return { areas, polygons };
}

/** Hands over the rings of each polygon, checked. */
function gather(geometry: unknown, path: string, take: (rings: readonly (readonly Position[])[]) => void): void {
  const { type, coordinates, features } = (geometry ?? {}) as Record<string, unknown>;
  switch (type) {
    case 'Polygon':
      checkPolygon(coordinates, `${path}.coordinates`);
      take(coordinates);
      break;
    case 'MultiPolygon':
      checkArray(coordinates, `${path}.coordinates`);
      coordinates.forEach((rings, i) => {
        checkPolygon(rings, `${path}.coordinates[${i}]`);
        take(rings);
      });
      break;
    case 'FeatureCollection':
      checkArray(features, `${path}.features`);
      features.forEach((feature, i) => {
        gather((feature as { geometry?: unknown } | null)?.geometry, `${path}.features[${i}].geometry`, take);
      });
      break;
    default:
      throw new InputError({
        reason: 'wrong-type',
        argument: path,
        rule: 'a Polygon, a MultiPolygon or a FeatureCollection of these',
        value: type ?? geometry,
      });
  }
}

/** Refuses anything but rings that are closed, don't cross themselves and go around no pole. */
export function checkPolygon(rings: unknown, path: string): asserts rings is readonly (readonly Position[])[] {
  checkArray(rings, path);
  if (rings.length === 0) {
    throw new InputError({ reason: 'too-few', argument: path, rule: 'at least one ring', value: rings });
  }
  for (let i = 0; i < rings.length; i++) checkRing(rings[i], path, i);
}

/** @param number - Of the ring; joined to the path only where it is needed. */
function checkRing(ring: unknown, polygon: string, number: number): void {
  const path = `${polygon}[${number}]`;
  checkArray(ring, path);
  const n = ring.length;
  const x: number[] = [];
  const y: number[] = [];
  for (let k = 0; k < n; k++) {
    const position: unknown = ring[k];
    checkPosition(position, path, k);
    x.push(k === 0 ? position[0] : unwrapLongitude(position[0], x[k - 1]));
    y.push(position[1]);
  }
  const closed = n > 0 && y[0] === y[n - 1] && unwrapLongitude(x[n - 1], x[0]) === x[0];
  if (n < 4 || !closed) {
    throw new InputError({
      reason: n < 4 ? 'too-few' : 'misplaced',
      argument: n < 4 ? path : `${path}[${n - 1}]`,
      rule: n < 4 ? 'a ring of at least 4 positions' : 'the first position of the ring again, which closes it',
      value: n < 4 ? ring : ring[n - 1],
    });
  }
  if (Math.abs(x[n - 1] - x[0]) > 180) {
    throw new InputError({
      reason: 'misplaced',
      argument: path,
      rule: 'a ring that goes around no pole',
      value: ring,
      hint: 'Cut it into several along a meridian',
    });
  }
  const crossing = ringCrossing(x, y);
  if (!crossing) return;
  const [first, second] = crossing.edges;
  throw new InputError({
    reason: 'misplaced',
    argument: path,
    rule: 'a ring that does not cross itself',
    value: crossing.at.map((degrees) => Number(degrees.toFixed(7))),
    hint: `The edges from its positions ${first} and ${second} cross there`,
  });
}

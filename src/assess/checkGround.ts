import { checkChoice, checkNumber, InputError } from '../model';
import type { Assessment } from './Assessment';

/** Metres: places along the route that were counted in two ways agree to this. */
const SAME_PLACE = 1e-6;

/**
 * Refuses areas and passages of an assessment that its shape allows and {@link assess} never returns: rings whose columns are of
 * two lengths or that leave the globe, passages of recordings or stretches that are not there, or beyond the route.
 *
 * @throws {InputError} naming the place: `assessment.route.areas[0].polygons[2][0].lat`
 */
export function checkGround({ route, recordings, passages }: Assessment, argument: string): void {
  route.areas?.forEach(({ polygons }, i) => {
    polygons.forEach((rings, k) => {
      const polygon = `${argument}.route.areas[${i}].polygons[${k}]`;
      if (rings.length === 0) {
        throw new InputError({ reason: 'too-few', argument: polygon, rule: 'at least one ring', value: rings });
      }
      rings.forEach(({ lon, lat }, l) => {
        const ring = `${polygon}[${l}].lat`;
        if (lat.length !== lon.length) {
          const rule = `as many numbers as its lon, ${lon.length}`;
          throw new InputError({ reason: 'wrong-type', argument: ring, rule, value: lat });
        }
        for (let j = 0; j < lat.length; j++) checkNumber(lat[j], `${ring}[${j}]`, { min: -90, max: 90 });
      });
    });
  });
  if (passages.length === 0) return;
  const names = new Set(recordings.map(({ name }) => name));
  const sections = new Set(route.sections.map(({ name }) => name));
  const among = (value: string, all: ReadonlySet<string>, place: string) => {
    if (!all.has(value)) checkChoice(value, place, [...all]);
  };
  passages.forEach(({ recording, section, from, to, deepestAt, position }, i) => {
    const passage = `${argument}.passages[${i}]`;
    among(recording, names, `${passage}.recording`);
    if (section !== null) among(section, sections, `${passage}.section`);
    checkNumber(to, `${passage}.to`, { min: from, max: route.length + SAME_PLACE });
    checkNumber(deepestAt, `${passage}.deepestAt`, { min: from - SAME_PLACE, max: to + SAME_PLACE });
    checkNumber(position[1], `${passage}.position[1]`, { min: -90, max: 90 });
  });
}

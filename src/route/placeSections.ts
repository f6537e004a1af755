import { InputError, type Section } from '../model';
import type { Draft } from './Draft';
import type { LaidLine } from './layVertices';
import { stretchesInside } from './stretchesInside';

/**
 * The sections in order along the route: opened by calls, placed from–to, and those of areas.
 *
 * @throws {InputError} a stretch that ends past the end of the route
 */
export function placeSections(
  draft: Draft,
  { columns, alongNode }: LaidLine,
  halfWidth: number | undefined,
): Section[] {
  const sections = draft.sections.flatMap((section): Section[] => {
    const { name, environment, lap } = section;
    const width = section.halfWidth ?? halfWidth;
    const rest = {
      ...(width === undefined ? {} : { halfWidth: width }),
      ...(environment === undefined ? {} : { environment }),
    };
    if (section.inside !== undefined) {
      const stretches = stretchesInside(columns, section.inside);
      if (stretches.length === 0) {
        const message = `The route never enters the area of section '${name}'.`;
        draft.warnings.push({ reason: 'empty-section', fromNode: 0, toNode: 0, message });
      }
      return stretches.map(([from, to]) => {
        const middle = (from + to) / 2;
        const around = draft.laps.filter(
          ({ fromNode, toNode }) => alongNode[fromNode] <= middle && middle < alongNode[toNode],
        );
        // Inner laps are drawn before the outer one ends.
        return { name, from, to, ...rest, ...(around.length === 0 ? {} : { lap: around[0].lap }) };
      });
    }
    if (section.from !== undefined) {
      // A millimetre past the end is rounding of whoever measured, not a place outside.
      if (section.to! > columns.length + 1e-3) {
        throw new InputError({
          reason: 'outside',
          argument: `${section.call} to`,
          rule: `within the route's ${columns.length.toFixed(3)} m`,
          value: section.to,
        });
      }
      return [{ name, from: section.from, to: Math.min(section.to!, columns.length), ...rest }];
    }
    const from = alongNode[section.fromNode];
    const to = section.toNode === undefined ? columns.length : alongNode[section.toNode];
    return [{ name, from, to, ...rest, ...(lap === undefined ? {} : { lap }) }];
  });
  return nameApart(sections.sort((a, b) => a.from - b.from || a.to - b.to));
}

/** The same sections, the second and later of one name and lap numbered: "bridge", "bridge (2)". */
export function nameApart(sections: readonly Section[]): Section[] {
  const taken = new Set<string>();
  return sections.map((section) => {
    const key = (name: string) => JSON.stringify([name, section.lap]);
    let { name } = section;
    for (let k = 2; taken.has(key(name)); k++) name = `${section.name} (${k})`;
    taken.add(key(name));
    return { ...section, name };
  });
}

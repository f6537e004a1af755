import { bisector } from 'd3-array';
import { InputError, type Section } from '../model';
import type { Draft } from './Draft';
import type { LaidLine } from './layVertices';
import { stretchesInside } from './stretchesInside';
import { uniqueNames } from './uniqueNames';

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
  const lapAt = lapsOf(draft, alongNode);
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
        const around = lapAt((from + to) / 2);
        return { name, from, to, ...rest, ...(around === undefined ? {} : { lap: around }) };
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

/** The function that tells in which lap a place lies: the inner one of two, undefined outside all. */
function lapsOf(draft: Draft, alongNode: readonly number[]): (alongTrack: number) => number | undefined {
  const laps = draft.laps
    .map(({ fromNode, toNode, lap }) => ({ from: alongNode[fromNode], to: alongNode[toNode], lap }))
    .sort((a, b) => a.from - b.from || b.to - a.to);
  /** For each lap the one that it is part of. */
  const outer: number[] = [];
  laps.forEach(({ from }, i) => {
    let around = i - 1;
    while (around >= 0 && laps[around].to <= from) around = outer[around];
    outer.push(around);
  });
  return (alongTrack) => {
    let i = byFrom.right(laps, alongTrack) - 1;
    while (i >= 0 && !(alongTrack < laps[i].to)) i = outer[i];
    return i < 0 ? undefined : laps[i].lap;
  };
}

const byFrom = bisector(({ from }: { readonly from: number }) => from);

/** The same sections, the second and later of one name and lap numbered: "bridge", "bridge (2)". */
export function nameApart(sections: readonly Section[]): Section[] {
  const byLap = new Map<number | undefined, (name: string) => string>();
  return sections.map((section) => {
    const { lap } = section;
    if (!byLap.has(lap)) byLap.set(lap, uniqueNames());
    return { ...section, name: byLap.get(lap)!(section.name) };
  });
}

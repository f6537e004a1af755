import { type Section, withoutEnd } from '../model';
import type { LapRepeatability } from './Assessment';
import type { NamedPlaced } from './NamedPlaced';
import type { RouteGrid } from './RouteGrid';

/** How far the laps of each recording differ at the same place, for each section that comes back lap by lap. */
export function lapRepeatability(grid: RouteGrid, recordings: readonly NamedPlaced[]): LapRepeatability[] {
  const groups = repeatedSections(grid.route.sections);
  return recordings.flatMap(({ name, placed }) =>
    groups.flatMap((sections): LapRepeatability[] => {
      const ranges = sections.map(({ from, to }) => grid.range(from, to));
      const count = ranges.reduce((least, { first, end }) => Math.min(least, end - first), Infinity);
      let squares = 0;
      let places = 0;
      let laps = 0;
      const offsets = new Float64Array(ranges.length);
      for (let i = 0; i < count; i++) {
        let passed = 0;
        let sum = 0;
        for (const { first, end } of ranges) {
          const offset = placed.offset[first + Math.floor(((i + 0.5) / count) * (end - first))];
          if (Number.isNaN(offset)) continue;
          offsets[passed++] = offset;
          sum += offset;
        }
        if (passed < 2) continue;
        let spread = 0;
        for (let k = 0; k < passed; k++) spread += (offsets[k] - sum / passed) ** 2;
        squares += spread / (passed - 1);
        places++;
        laps = Math.max(laps, passed);
      }
      return places === 0
        ? []
        : [{ recording: name, section: commonName(sections), laps, sd: Math.sqrt(squares / places) }];
    }),
  );
}

/** Sections that have the same place in every lap, by their order in it and a length within 2 % of the first lap's. */
function repeatedSections(sections: readonly Section[]): Section[][] {
  const laps = new Map<number, Section[]>();
  for (const section of sections) {
    if (section.lap === undefined) continue;
    const lap = laps.get(section.lap);
    if (lap) lap.push(section);
    else laps.set(section.lap, [section]);
  }
  const [firstLap, ...others] = [...laps.values()];
  return (firstLap ?? []).flatMap((section, i) => {
    const length = section.to - section.from;
    const again = others.flatMap((lap) => {
      const same = lap[i];
      return same && Math.abs(same.to - same.from - length) <= 0.02 * length ? [same] : [];
    });
    return again.length > 0 ? [[section, ...again]] : [];
  });
}

/** What the names have in common: "oval, lap 1" and "oval, lap 2" are the oval. */
function commonName(sections: readonly Section[]): string {
  const [first, ...others] = sections.map(({ name }) => name);
  let length = first.length;
  for (const other of others) while (!other.startsWith(first.slice(0, length))) length--;
  const loose = /[\s,;:#(–-]/;
  const common = withoutEnd(withoutEnd(first.slice(0, length), loose).replace(/lap$/i, ''), loose);
  return common || first;
}

import { deepest, findStays, type Ground, type Region, walkLine } from '../areas';
import type { Route } from '../model';

/** As many as anybody reads through. */
const MOST = 100;

/** Something of the route's own line that the areas do not allow. */
interface GroundWarning {
  readonly from: number;
  readonly to: number;
  readonly message: string;
}

/** Where the route itself runs through an impossible area, or outside every allowed one, in order; the first hundred. */
export function groundWarnings({ lon, lat, alongTrack }: Route, ground: Ground): GroundWarning[] {
  const { allowed, impossible, index } = ground;
  const vertices = Array.from({ length: lon.length - 1 }, (_, i) => i + 1);
  const found: { from: number; to: number; words: () => string }[] = [];
  const walk = (region: Region, some: readonly number[], there: 'inside' | 'outside', what: string) => {
    const walked = walkLine(region, lon, lat, some);
    for (const { parts } of findStays(walked, there)) {
      const along = (vertex: number, share: number) =>
        alongTrack[vertex - 1] + share * (alongTrack[vertex] - alongTrack[vertex - 1]);
      const [first, last] = [parts[0], parts[parts.length - 1]];
      const [from, to] = [along(first.vertex, first.from), along(last.vertex, last.to)];
      const words = () =>
        `The line itself runs ${what} for ${(to - from).toFixed(1)} m, up to ${deepest(region, parts).distance.toFixed(1)} m from the edge.`;
      found.push({ from, to, words });
    }
    return walked;
  };
  if (allowed) walk(allowed, vertices, 'outside', 'outside every allowed area');
  if (impossible) {
    const near = new Map<number, Set<number>>();
    for (const { vertex, x0, y0, x1, y1, standing } of walkLine(impossible, lon, lat, vertices)) {
      if (standing !== 'inside') continue;
      const box = { minX: Math.min(x0, x1), minY: Math.min(y0, y1), maxX: Math.max(x0, x1), maxY: Math.max(y0, y1) };
      for (const area of impossible.areasNear(box)) near.set(area, (near.get(area) ?? new Set<number>()).add(vertex));
    }
    for (const [area, some] of near) {
      walk(ground.region(area), [...some], 'inside', `through “${index.areas[area].name}”`);
    }
  }
  const sorted = found.sort((a, b) => a.from - b.from || a.to - b.to);
  const told = sorted.slice(0, MOST).map(({ from, to, words }) => ({ from, to, message: words() }));
  const rest = sorted.slice(MOST);
  if (rest.length === 0) return told;
  const to = rest.reduce((most, stretch) => Math.max(most, stretch.to), 0);
  const message = `More stretches of the line in impossible areas or outside every allowed one: ${rest.length}.`;
  return [...told, { from: rest[0].from, to, message }];
}

import { turnsOf } from '../../src/metrics/turnsOf';
import type { Route } from '../../src/subpaths/route';

/** Areas between a route and fixes placed on it, between every two neighbouring breaks the passes one by one: quadratic. */
export function areaByStretches(route: Route, s: ArrayLike<number>, n: ArrayLike<number>) {
  const breaks = [...new Set(Array.from(s).filter((at) => !Number.isNaN(at)))].sort((a, b) => a - b);
  const turns = turnsOf(route);
  const told = { area: 0, signed: 0, length: 0 };
  for (let k = 0; k + 1 < breaks.length; k++) {
    const [begin, end] = [breaks[k], breaks[k + 1]];
    const offsets: ((at: number) => number)[] = [];
    for (let i = 1; i < s.length; i++) {
      const [low, high] = [Math.min(s[i - 1], s[i]), Math.max(s[i - 1], s[i])];
      if (low <= begin && high > begin) {
        offsets.push((at) => n[i - 1] + ((n[i] - n[i - 1]) * (at - s[i - 1])) / (s[i] - s[i - 1]));
      }
    }
    if (offsets.length === 0) continue;
    told.length += end - begin;
    for (const offset of offsets) {
      const [n0, n1] = [offset(begin), offset(end)];
      const mean = n0 * n1 >= 0 ? Math.abs(n0 + n1) / 2 : (n0 * n0 + n1 * n1) / (2 * Math.abs(n1 - n0));
      told.signed += (((n0 + n1) / 2) * (end - begin)) / offsets.length;
      told.area += (mean * (end - begin)) / offsets.length;
      for (let v = 0; v < turns.length; v++) {
        if (route.alongTrack[v] < begin || route.alongTrack[v] >= end) continue;
        const there = offset(route.alongTrack[v]);
        const sector = (turns[v] * there * there) / 2 / offsets.length;
        told.signed += sector;
        told.area += Math.sign(there) * sector;
      }
    }
  }
  return told;
}

import { findStays, type Ground, type Region, type Standing, type Stay, type WalkedPart, walkLine } from '../areas';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';

/** By bin: metres and seconds of the recorded line. */
export interface LineSums {
  readonly metres: Float64Array;
  readonly seconds: Float64Array;
}

/** What of the recorded line was surely inside a region, and what too near an edge to tell. */
export interface StandingSums {
  readonly inside: LineSums;
  readonly undecided: LineSums;
}

/** What of the recorded line lay in one area, or too near its edge to tell, in one bin. */
export interface AreaEntry {
  readonly area: number;
  readonly bin: number;
  readonly inside: boolean;
  readonly metres: number;
  readonly seconds: number;
}

/** A stay inside an impossible area, or outside every allowed one. */
export interface GroundStay extends Stay {
  /** Number of the impossible area; -1 outside every allowed one. */
  readonly area: number;
  readonly region: Region;
}

/** Where a recorded line lay, by the areas about the route. */
export interface GroundPassed {
  /** By bin, metres of all that is judged: the line between joined fixes that have a place, but for what is left out. */
  readonly line: Float64Array;
  /** Null where no area is of the kind. */
  readonly allowed: (StandingSums & { readonly outside: LineSums }) | null;
  readonly impossible: StandingSums | null;
  /** In the order of their bins. */
  readonly entries: readonly AreaEntry[];
  readonly stays: readonly GroundStay[];
}

/** Judges the recorded line itself: the geodesics between joined fixes, each part credited to the bin it runs beside. */
export function groundPassed(grid: RouteGrid, placed: PlacedRecording, ground: Ground): GroundPassed {
  const { recording, snapped, first, last, joined, step, wait } = placed;
  const { lon, lat } = recording;
  const onRoute = (i: number) => snapped.state[i] === 'on' && Number.isFinite(snapped.alongTrack[i]);
  const vertices: number[] = [];
  for (let i = first + 1; first >= 0 && i <= last; i++) {
    if (joined[i] === 1 && onRoute(i) && onRoute(i - 1) && step[i] >= 0) vertices.push(i);
  }
  const add = (sums: LineSums, vertex: number, from: number, to: number) =>
    eachBin(grid, placed, vertex, from, to, (bin, begin, end) => {
      sums.metres[bin] += (end - begin) * step[vertex];
      sums.seconds[bin] += (end - begin) * Math.max(0, wait[vertex] || 0);
    });
  const line = new Float64Array(grid.count);
  for (const vertex of vertices) {
    eachBin(grid, placed, vertex, 0, 1, (bin, begin, end) => {
      line[bin] += (end - begin) * step[vertex];
    });
  }
  const walk = (region: Region, some: readonly number[]) => judgedParts(grid, placed, walkLine(region, lon, lat, some));
  const sumsOf = (walked: readonly WalkedPart[], wanted: Standing): LineSums => {
    const sums = sumsFor(grid);
    for (const { vertex, from, to, standing } of walked) if (standing === wanted) add(sums, vertex, from, to);
    return sums;
  };
  const entries: { -readonly [K in keyof AreaEntry]: AreaEntry[K] }[] = [];
  const stays: GroundStay[] = [];
  const enter = (area: number, walked: readonly WalkedPart[]) => {
    for (const { vertex, from, to, standing: how } of walked) {
      if (how === 'outside') continue;
      const inside = how === 'inside';
      eachBin(grid, placed, vertex, from, to, (bin, begin, end) => {
        const metres = (end - begin) * step[vertex];
        const seconds = (end - begin) * Math.max(0, wait[vertex] || 0);
        const before = entries[entries.length - 1];
        if (before?.area === area && before.bin === bin && before.inside === inside) {
          before.metres += metres;
          before.seconds += seconds;
        } else entries.push({ area, bin, inside, metres, seconds });
      });
    }
  };
  /** Each area of a region that the line comes near, alone. */
  const eachArea = (
    region: Region,
    walked: readonly WalkedPart[],
    take: (area: number, own: readonly WalkedPart[]) => void,
  ) => {
    const only = region.onlyArea;
    if (only !== undefined) return take(only, walked);
    const near = new Map<number, Set<number>>();
    for (const { vertex, x0, y0, x1, y1, standing: how } of walked) {
      if (how === 'outside') continue;
      const box = {
        minX: Math.min(x0, x1),
        minY: Math.min(y0, y1),
        maxX: Math.max(x0, x1),
        maxY: Math.max(y0, y1),
      };
      for (const area of region.areasNear(box)) near.set(area, (near.get(area) ?? new Set<number>()).add(vertex));
    }
    for (const [area, some] of [...near].sort(([a], [b]) => a - b)) {
      take(area, walk(ground.region(area), [...some]));
    }
  };
  const { allowed, impossible } = ground;
  const inAllowed = allowed && walk(allowed, vertices);
  const inImpossible = impossible && walk(impossible, vertices);
  if (allowed && inAllowed) {
    eachArea(allowed, inAllowed, enter);
    stays.push(...findStays(inAllowed, 'outside').map((stay) => ({ ...stay, area: -1, region: allowed })));
  }
  if (impossible && inImpossible) {
    eachArea(impossible, inImpossible, (area, walked) => {
      enter(area, walked);
      const region = ground.region(area);
      stays.push(...findStays(walked, 'inside').map((stay) => ({ ...stay, area, region })));
    });
  }
  return {
    line,
    allowed: inAllowed && {
      inside: sumsOf(inAllowed, 'inside'),
      outside: sumsOf(inAllowed, 'outside'),
      undecided: sumsOf(inAllowed, 'undecided'),
    },
    impossible: inImpossible && {
      inside: sumsOf(inImpossible, 'inside'),
      undecided: sumsOf(inImpossible, 'undecided'),
    },
    entries: entries.sort((a, b) => a.bin - b.bin),
    stays,
  };
}

function sumsFor({ count }: RouteGrid): LineSums {
  return { metres: new Float64Array(count), seconds: new Float64Array(count) };
}

/** The bins beside a part of the line between two fixes, those left out passed over, each with the share of that line in it. */
function eachBin(
  grid: RouteGrid,
  placed: PlacedRecording,
  vertex: number,
  from: number,
  to: number,
  take: (bin: number, from: number, to: number) => void,
): void {
  const { edges, excluded, route } = grid;
  const begin = placed.along(vertex - 1);
  const travelled = placed.along(vertex) - begin;
  if (travelled === 0) {
    const bin = grid.binAt(begin);
    if (begin >= 0 && begin <= route.length && excluded[bin] === 0) take(bin, from, to);
    return;
  }
  const ends = [-begin / travelled, (route.length - begin) / travelled];
  const low = Math.max(from, Math.min(...ends));
  const high = Math.min(to, Math.max(...ends));
  if (!(low < high)) return;
  const direction = travelled > 0 ? 1 : -1;
  const last = grid.binAt(begin + high * travelled);
  let at = low;
  for (let bin = grid.binAt(begin + low * travelled); ; bin += direction) {
    const edge = (edges[direction > 0 ? bin + 1 : bin] - begin) / travelled;
    const leave = bin === last ? high : Math.max(at, Math.min(edge, high));
    if (excluded[bin] === 0) take(bin, at, leave);
    at = leave;
    if (bin === last) return;
  }
}

/** What of a walked line is judged: beside the route, and not left out. */
function judgedParts(grid: RouteGrid, placed: PlacedRecording, walked: readonly WalkedPart[]): WalkedPart[] {
  const anyExcluded = grid.excluded.includes(1);
  const beside = (along: number) => along >= 0 && along <= grid.route.length;
  const judged: WalkedPart[] = [];
  for (const part of walked) {
    const { vertex, from, to } = part;
    if (!anyExcluded && beside(placed.along(vertex - 1)) && beside(placed.along(vertex))) {
      judged.push(part);
      continue;
    }
    const runs: [number, number][] = [];
    eachBin(grid, placed, vertex, from, to, (_, begin, end) => {
      const before = runs[runs.length - 1];
      if (before && before[1] === begin) before[1] = end;
      else runs.push([begin, end]);
    });
    for (const [begin, end] of runs) {
      const place = (share: number) => {
        const within = to > from ? (share - from) / (to - from) : 0;
        return [part.x0 + within * (part.x1 - part.x0), part.y0 + within * (part.y1 - part.y0)];
      };
      const [[x0, y0], [x1, y1]] = [place(begin), place(end)];
      judged.push({ vertex, from: begin, to: end, x0, y0, x1, y1, standing: part.standing });
    }
  }
  return judged;
}

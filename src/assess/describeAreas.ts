import { clippedRing, degreeMetres, type Ground } from '../areas';
import type { AssessedArea, AssessedRing } from './Assessment';
import { drawnLine } from './drawnLine';
import type { RouteGrid } from './RouteGrid';

/** Metres from the route within which areas are drawn: twice as far as a recording is shown. */
const SHOWN_WITHIN = 100;

/** Metres: what is drawn of a ring is as near to it. */
const DRAWN_TO = 0.1;

/** Metres between the places of the route at which areas are looked for. */
const STEP = 20;

/** Metres about the box around the route, beyond which polygons are cut off: no plan shows more. */
const CUT_OFF = 500;

/** The areas near the route, to be drawn: thinned, and cut off beyond what a plan shows. */
export function describeAreas(grid: RouteGrid, { index }: Ground): AssessedArea[] {
  const { count, halfWidth } = grid;
  const shown = new Set<number>();
  for (let k = 0; k < count; k += STEP) {
    const [lon, lat] = grid.positionAt(k);
    const { east, north } = degreeMetres(lat);
    const reach = Math.max(SHOWN_WITHIN, halfWidth[k] || 0) + STEP;
    const [aside, ahead] = [reach / east, reach / north];
    const box = { minX: lon - aside, maxX: lon + aside, minY: lat - ahead, maxY: lat + ahead };
    for (const polygon of index.polygonsIn(box)) shown.add(polygon);
  }
  const [low, high] = boxAbout(grid);
  const byArea = new Map<number, { doubt95: number; polygons: AssessedRing[][] }>();
  for (const polygon of [...shown].sort((a, b) => a - b)) {
    const rings = index.ringsOf(polygon).flatMap(([from, to]): AssessedRing[] => {
      const places = Array.from({ length: to - from }, (_, i) => [index.x[from + i], index.y[from + i]] as const);
      const inside = ([x, y]: readonly [number, number]) => x >= low[0] && x <= high[0] && y >= low[1] && y <= high[1];
      const open = places.every(inside) ? places.slice(0, -1) : clippedRing(places, low, high);
      if (open.length < 3) return [];
      const ring = [...open, open[0]];
      const columns = { lon: ring.map(([x]) => x), lat: ring.map(([, y]) => y), alongTrack: ring.map(() => 0) };
      const thinned = drawnLine(columns, DRAWN_TO);
      return [{ lon: thinned.lon, lat: thinned.lat }];
    });
    if (rings.length === 0) continue;
    const area = index.areaOf[polygon];
    const mine = byArea.get(area) ?? { doubt95: 0, polygons: [] };
    byArea.set(area, mine);
    mine.doubt95 = Math.max(mine.doubt95, index.doubtOf[polygon]);
    mine.polygons.push(rings);
  }
  return [...byArea]
    .sort(([a], [b]) => a - b)
    .map(([area, { doubt95, polygons }]) => ({ ...index.areas[area], doubt95, polygons }));
}

/** Least and greatest longitude and latitude. */
function boxAbout(grid: RouteGrid): [low: [number, number], high: [number, number]] {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let k = 0; k < grid.count; k++) {
    const [lon, lat] = grid.positionAt(k);
    west = Math.min(west, lon);
    east = Math.max(east, lon);
    south = Math.min(south, lat);
    north = Math.max(north, lat);
  }
  const metres = degreeMetres(Math.max(Math.abs(south), Math.abs(north)));
  const [aside, ahead] = [CUT_OFF / metres.east, CUT_OFF / metres.north];
  return [
    [west - aside, south - ahead],
    [east + aside, north + ahead],
  ];
}

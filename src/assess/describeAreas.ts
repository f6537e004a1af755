import type { Ground } from '../areas';
import type { AssessedArea, AssessedRing } from './Assessment';
import { drawnLine } from './drawnLine';
import type { RouteGrid } from './RouteGrid';

/** Metres from the route within which areas are drawn: what is shown of a recording lies no further. */
const SHOWN_WITHIN = 100;

/** Metres: what is drawn of a ring is as near to it. */
const DRAWN_TO = 0.1;

/** The areas near the route, to be drawn: whole polygons, thinned. */
export function describeAreas({ lon, lat, count, halfWidth }: RouteGrid, { index }: Ground): AssessedArea[] {
  const shown = new Set<number>();
  const degree = 111_320;
  for (let k = 0; k < count; k += 20) {
    const reach = Math.max(SHOWN_WITHIN, halfWidth[k] || 0) + 20;
    const ahead = reach / 110_000;
    const aside = reach / (degree * Math.max(1e-6, Math.cos((lat[k] * Math.PI) / 180)));
    const x = lon[k];
    for (const polygon of index.polygonsIn({
      minX: x - aside,
      maxX: x + aside,
      minY: lat[k] - ahead,
      maxY: lat[k] + ahead,
    }))
      shown.add(polygon);
  }
  const byArea = new Map<number, { doubt95: number; polygons: AssessedRing[][] }>();
  for (const polygon of [...shown].sort((a, b) => a - b)) {
    const area = index.areaOf[polygon];
    let mine = byArea.get(area);
    if (!mine) {
      mine = { doubt95: 0, polygons: [] };
      byArea.set(area, mine);
    }
    mine.doubt95 = Math.max(mine.doubt95, index.doubtOf[polygon]);
    mine.polygons.push(
      index.ringsOf(polygon).map(([from, to]) => {
        const columns = { lon: index.x.subarray(from, to), lat: index.y.subarray(from, to) };
        const { lon: x, lat: y } = drawnLine({ ...columns, alongTrack: new Float64Array(to - from) }, DRAWN_TO);
        return { lon: x, lat: y };
      }),
    );
  }
  return [...byArea]
    .sort(([a], [b]) => a - b)
    .map(([area, { doubt95, polygons }]) => ({ ...index.areas[area], doubt95, polygons }));
}

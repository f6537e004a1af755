/** A place in a plane, or in degrees. */
type Place = readonly [x: number, y: number];

/**
 * A closed ring clipped to a box, as an open one: where it leaves the box and enters it again, edges run along the box. Empty
 * where nothing of it is inside.
 *
 * @see Sutherland and Hodgman, Reentrant polygon clipping, Comm. ACM 17 (1974) 32
 */
export function clippedRing(ring: readonly Place[], low: readonly number[], high: readonly number[]): Place[] {
  let points: readonly Place[] = ring.slice(0, -1);
  for (const axis of [0, 1] as const) {
    for (const [limit, sign] of [
      [low[axis], 1],
      [high[axis], -1],
    ]) {
      const inside = (point: Place) => sign * (point[axis] - limit) >= 0;
      const before = points;
      points = before.flatMap((point, i): Place[] => {
        const last = before[(i + before.length - 1) % before.length];
        if (inside(point) === inside(last)) return inside(point) ? [point] : [];
        const share = (limit - last[axis]) / (point[axis] - last[axis]);
        const cut: Place = [last[0] + share * (point[0] - last[0]), last[1] + share * (point[1] - last[1])];
        return inside(point) ? [cut, point] : [cut];
      });
    }
  }
  return [...points];
}

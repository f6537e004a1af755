/** Index pairs of the edges of a plane line that cross inside both, by trying every pair. */
export function planeCrossings(points: readonly (readonly [number, number])[]): [number, number][] {
  const found: [number, number][] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    const [[ax, ay], [bx, by]] = [points[i], points[i + 1]];
    for (let j = i + 2; j + 1 < points.length; j++) {
      const [[cx, cy], [dx, dy]] = [points[j], points[j + 1]];
      const across = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx);
      if (across === 0) continue;
      const t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / across;
      const u = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / across;
      if (t > 1e-9 && t < 1 - 1e-9 && u > 1e-9 && u < 1 - 1e-9) found.push([i, j]);
    }
  }
  return found;
}

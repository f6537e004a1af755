/** Squared distance from the origin of a plane to the edge between two places. */
export function squaredToEdge(px: number, py: number, qx: number, qy: number): number {
  const dx = qx - px;
  const dy = qy - py;
  const along = -(px * dx + py * dy);
  if (!(along > 0)) return px * px + py * py;
  const length2 = dx * dx + dy * dy;
  if (along >= length2) return qx * qx + qy * qy;
  const cross = px * dy - py * dx;
  return (cross * cross) / length2;
}

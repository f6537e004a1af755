/**
 * The part of a straight line from the origin to (`dx`, `dy`) that lies within `reach` of the edge from (`ax`, `ay`) to
 * (`bx`, `by`), as shares of it; undefined where none does. One part: what lies within reach of an edge is convex.
 *
 * A line without length lies there whole or not at all.
 */
export function reachAlong(
  dx: number,
  dy: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  reach: number,
): readonly [from: number, to: number] | undefined {
  let low = Infinity;
  let high = -Infinity;
  const take = (from: number, to: number) => {
    const a = Math.max(from, 0);
    const b = Math.min(to, 1);
    if (a > b) return;
    if (a < low) low = a;
    if (b > high) high = b;
  };
  const [ex, ey] = [bx - ax, by - ay];
  const length = Math.hypot(ex, ey);
  disc(dx, dy, ax, ay, reach, take);
  if (length > 0) {
    disc(dx, dy, bx, by, reach, take);
    // beside the edge: its ends and its two sides each leave a part
    const [ux, uy] = [ex / length, ey / length];
    const along = band(dx * ux + dy * uy, ax * ux + ay * uy, ax * ux + ay * uy + length);
    const middle = -ax * uy + ay * ux;
    const across = along && band(-dx * uy + dy * ux, middle - reach, middle + reach);
    if (along && across) take(Math.max(along[0], across[0]), Math.min(along[1], across[1]));
  }
  return low <= high ? [low, high] : undefined;
}

/** Where `share * change` lies within two bounds. */
function band(change: number, least: number, most: number): readonly [number, number] | undefined {
  if (change === 0) return least <= 0 && most >= 0 ? [-Infinity, Infinity] : undefined;
  return change > 0 ? [least / change, most / change] : [most / change, least / change];
}

function disc(
  dx: number,
  dy: number,
  cx: number,
  cy: number,
  reach: number,
  take: (from: number, to: number) => void,
): void {
  const square = dx * dx + dy * dy;
  if (square === 0) {
    if (cx * cx + cy * cy <= reach * reach) take(0, 1);
    return;
  }
  const cross = dx * cy - dy * cx;
  const rest = reach * reach * square - cross * cross;
  if (rest < 0) return;
  const middle = (dx * cx + dy * cy) / square;
  const half = Math.sqrt(rest) / square;
  take(middle - half, middle + half);
}

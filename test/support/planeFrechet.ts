import type { Position } from 'geojson';

/** Part of the edge from `a` to `b` within `distance` of `p`, as fractions, in a plane. */
export function freePart(p: Position, a: Position, b: Position, distance: number): [number, number] | undefined {
  const [ex, ey, wx, wy] = [b[0] - a[0], b[1] - a[1], a[0] - p[0], a[1] - p[1]];
  const length2 = ex * ex + ey * ey;
  if (length2 === 0) return Math.hypot(wx, wy) <= distance ? [0, 1] : undefined;
  const foot = -(wx * ex + wy * ey) / length2;
  const room = distance * distance - (wx + foot * ex) ** 2 - (wy + foot * ey) ** 2;
  if (room < 0) return undefined;
  const half = Math.sqrt(room / length2);
  const part: [number, number] = [Math.max(0, foot - half), Math.min(1, foot + half)];
  return part[0] <= part[1] ? part : undefined;
}

type Part = [number, number] | undefined;
type Parts = (i: number, j: number) => Part;

/**
 * What a monotone path through the free space reaches of the edges of the second line at each vertex of the first: the whole
 * diagram, cell by cell, with the free parts given.
 */
export function reachedParts(rows: number, columns: number, left: Parts, below: Parts): Part[][] {
  const reachedLeft: Part[][] = Array.from({ length: rows + 1 }, () => []);
  const reachedBelow: Part[][] = Array.from({ length: rows + 1 }, () => []);
  for (let i = 0; i <= rows; i++) {
    for (let j = 0; j <= columns; j++) {
      if (j < columns) {
        // from vertex i of the first line, along edge j of the second
        const free = left(i, j);
        if (i === 0) {
          const open = j === 0 ? free?.[0] === 0 : reachedLeft[0][j - 1]?.[1] === 1 && free?.[0] === 0;
          reachedLeft[0][j] = open ? free : undefined;
        } else if (free && reachedBelow[i - 1][j]) reachedLeft[i][j] = free;
        else {
          const before = reachedLeft[i - 1][j];
          reachedLeft[i][j] =
            free && before && Math.max(free[0], before[0]) <= free[1]
              ? [Math.max(free[0], before[0]), free[1]]
              : undefined;
        }
      }
      if (i < rows) {
        const free = below(i, j);
        if (j === 0) {
          const open = i === 0 ? free?.[0] === 0 : reachedBelow[i - 1][0]?.[1] === 1 && free?.[0] === 0;
          reachedBelow[i][0] = open ? free : undefined;
        } else if (free && reachedLeft[i][j - 1]) reachedBelow[i][j] = free;
        else {
          const before = reachedBelow[i][j - 1];
          reachedBelow[i][j] =
            free && before && Math.max(free[0], before[0]) <= free[1]
              ? [Math.max(free[0], before[0]), free[1]]
              : undefined;
        }
      }
    }
  }
  return reachedLeft;
}

/** Whether a monotone path crosses the free space. */
export function crosses(rows: number, columns: number, left: Parts, below: Parts): boolean {
  return reachedParts(rows, columns, left, below)[rows][columns - 1]?.[1] === 1;
}

/** Judge of the Fréchet distance in a plane: the whole free-space diagram, bisected to 1e-9. */
export function planeFrechet(a: readonly Position[], b: readonly Position[]): number {
  const [rows, columns] = [a.length - 1, b.length - 1];
  const within = (distance: number) =>
    crosses(
      rows,
      columns,
      (i, j) => freePart(a[i], b[j], b[j + 1], distance),
      (i, j) => freePart(b[j], a[i], a[i + 1], distance),
    );
  let [low, high] = [0, 1];
  while (!within(high)) high *= 2;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (within(middle)) high = middle;
    else low = middle;
  }
  return high;
}

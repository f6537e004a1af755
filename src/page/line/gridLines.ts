/** Lines so many metres apart, in the plane of the map, and how many. */
export interface Grid {
  readonly spacing: number;
  readonly lines: [number, number][][];
}

/** A grid over an extent (west, south, east, north, metres), its lines `wanted` metres apart or a little more: 1, 2 or 5 times a power of ten. */
export function gridLines([west, south, east, north]: readonly number[], wanted: number): Grid {
  const power = 10 ** Math.floor(Math.log10(wanted));
  const spacing = [1, 2, 5, 10].map((times) => times * power).find((one) => one >= wanted * 0.999)!;
  const lines: [number, number][][] = [];
  for (let k = Math.ceil(west / spacing); k * spacing <= east; k++) {
    lines.push([
      [k * spacing, south],
      [k * spacing, north],
    ]);
  }
  for (let k = Math.ceil(south / spacing); k * spacing <= north; k++) {
    lines.push([
      [west, k * spacing],
      [east, k * spacing],
    ]);
  }
  return { spacing, lines };
}

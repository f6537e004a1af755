/** The same direction within [0, 360). */
export function wrapAzimuth(azimuth: number): number {
  const wrapped = azimuth - 360 * Math.floor(azimuth / 360);
  return wrapped >= 360 ? 0 : wrapped + 0;
}

/** Signed degrees from one azimuth to another, clockwise (right) positive, within [-180, 180). */
export function turnBetween(from: number, to: number): number {
  const turn = wrapAzimuth(to - from);
  return turn >= 180 ? turn - 360 : turn;
}

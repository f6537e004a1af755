import type { Position } from 'geojson';
import { WGS84 } from '../../src/geodesy/ellipsoid';

/** Seeded numbers in [0, 1): the 32-bit generator known as mulberry32. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** A wandering line of `count` positions from `start`, steps of up to `step` metres, turning by up to `turn` degrees. */
export function wanderingLine(
  random: () => number,
  { start, count, step, turn = 60 }: { start: Position; count: number; step: number; turn?: number },
): Position[] {
  const line: Position[] = [start];
  let azimuth = random() * 360;
  while (line.length < count) {
    const [lon, lat] = line[line.length - 1];
    azimuth += (random() - 0.5) * 2 * turn;
    const { lon2, lat2 } = WGS84.Direct(lat, lon, azimuth, random() * step);
    line.push([lon2!, lat2!]);
  }
  return line;
}

/** The same positions, each moved by up to `metres` in some direction: a recording of the line. */
export function jittered(random: () => number, line: readonly Position[], metres: number): Position[] {
  return line.map(([lon, lat]) => {
    const { lon2, lat2 } = WGS84.Direct(lat, lon, random() * 360, random() * metres);
    return [lon2!, lat2!];
  });
}

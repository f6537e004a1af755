import { Vertices } from '../index';
import { Curve } from './Curve';
import { finerCurve } from './finerCurve';

/** Bits a coordinate has in the order of places. */
const BITS = 10;

/**
 * The same places as a curve whose edges lie each by itself, no longer than `most`, those that are near each other side by
 * side: a line that is all about one place gets a tree by place so, where in its own order every box would hold all of it.
 */
export function besideEachOther(curve: Curve, most: number): Curve {
  const fine = finerCurve(curve, most, 'reference');
  const { vertices, edges, gap } = fine;
  const { x, y, z } = vertices;
  const kept = Int32Array.from({ length: edges }, (_, edge) => edge).filter((edge) => gap?.[edge] !== 1);
  const cell = [x, y, z].map((axis) => {
    const [low, high] = [axis.reduce((a, b) => Math.min(a, b)), axis.reduce((a, b) => Math.max(a, b))];
    const scale = high > low ? (2 ** BITS - 1) / (high - low) : 0;
    return (edge: number) => spread(((axis[edge] + axis[edge + 1]) / 2 - low) * scale);
  });
  // place and edge in one number: by place first, and exact
  const keys = Float64Array.from(kept, (edge) => {
    const place = cell[0](edge) + 2 * cell[1](edge) + 4 * cell[2](edge);
    return place * 2 ** 23 + edge;
  }).sort();
  const beside = new Vertices(2 * kept.length);
  const between = new Uint8Array(2 * kept.length);
  for (const [k, key] of keys.entries()) {
    const edge = key % 2 ** 23;
    beside.copy(2 * k, vertices, edge);
    beside.copy(2 * k + 1, vertices, edge + 1);
    between[2 * k + 1] = 1;
  }
  return new Curve(beside, fine.longest, between);
}

/** The bits of a whole number, two empty ones after each. */
function spread(value: number): number {
  let bits = Math.floor(value);
  bits = (bits | (bits << 16)) & 0x030000ff;
  bits = (bits | (bits << 8)) & 0x0300f00f;
  bits = (bits | (bits << 4)) & 0x030c30c3;
  return (bits | (bits << 2)) & 0x09249249;
}

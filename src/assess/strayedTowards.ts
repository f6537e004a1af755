import type { Side } from '../model';
import type { Interval } from '../statistics';

/** A mean offset surely below this share of the mean distance leaves a quarter of the distance to the other side at least. */
const BOTH = 0.5;

/**
 * Where one lay that surely strayed: to a side, where that is sure; to both, where the mean offset is surely far less than the
 * mean distance; null where the side stays open.
 */
export function strayedTowards({
  sureSide,
  interval95,
  biasInterval95,
}: {
  readonly sureSide: Side | null;
  readonly interval95: Interval | null;
  readonly biasInterval95: Interval | null;
}): Side | 'both' | null {
  if (sureSide !== null || interval95 === null || biasInterval95 === null) return sureSide;
  return Math.max(...biasInterval95.map(Math.abs)) < BOTH * interval95[0] ? 'both' : null;
}

import { round } from './drawnLine';

/** A column to so many decimals, null for what is not finite. */
export function plainColumn(column: Float64Array, decimals: number): (number | null)[] {
  const list = new Array<number | null>(column.length);
  for (let k = 0; k < list.length; k++) list[k] = Number.isFinite(column[k]) ? round(column[k], decimals) : null;
  return list;
}

import { quickselect } from 'd3-array';

/** The size within which so large a share of them lies, one of them; brings them out of their order. Undefined for none. */
export function shareWithin(sizes: Float64Array, share: number): number | undefined {
  if (sizes.length === 0) return undefined;
  const rank = Math.ceil(share * (sizes.length - 1));
  return (quickselect(sizes as ArrayLike<number>, rank) as ArrayLike<number>)[rank];
}

/** More out of place than this share of them, and they are sorted from scratch. */
const STRAY = 0.1;

/**
 * The fixes that count, in the order of their places; those of one place as they came.
 *
 * @remarks Recordings mostly go forward: what doesn't is taken out, sorted and merged again. O(n) then, O(n log n) at worst
 */
export function fixesInOrder(place: Float64Array, counts: (fix: number) => boolean): Uint32Array {
  const order = new Uint32Array(place.length);
  /** Those that lie behind one before them. */
  const strays: number[] = [];
  let count = 0;
  for (let i = 0; i < place.length; i++) {
    if (!counts(i)) continue;
    if (count > 0 && place[i] < place[order[count - 1]]) strays.push(i);
    else order[count++] = i;
  }
  const all = count + strays.length;
  if (strays.length === 0) return order.subarray(0, count);
  const before = (a: number, b: number) => place[a] - place[b] || a - b;
  if (strays.length > STRAY * all) {
    order.set(strays, count);
    return order.subarray(0, all).sort(before);
  }
  strays.sort(before);
  // from the end, so that nothing is overwritten
  let k = count - 1;
  let s = strays.length - 1;
  for (let to = all - 1; s >= 0; to--) {
    order[to] = k >= 0 && before(order[k], strays[s]) > 0 ? order[k--] : strays[s--];
  }
  return order.subarray(0, all);
}

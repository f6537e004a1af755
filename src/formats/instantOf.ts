/**
 * The instant, in milliseconds since 1970, that a count of seconds, milli-, micro- or nanoseconds means, told apart by size.
 *
 * @param like - a count of the same unit that tells
 */
export function instantOf(count: number, like = count): number {
  const size = Math.abs(like);
  if (size >= 1e17) return count / 1e6;
  if (size >= 1e14) return count / 1e3;
  return size >= 1e11 ? count : count * 1000;
}

/** Metres of the longest edge of a line with these places of its vertices along it. */
export function longestEdge(alongTrack: Float64Array): number {
  let longest = 0;
  for (let i = 1; i < alongTrack.length; i++) longest = Math.max(longest, alongTrack[i] - alongTrack[i - 1]);
  return longest;
}

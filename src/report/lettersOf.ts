/** "a" to "z", then "aa" to "az", "ba" and so on, for numbers from 0: a figure above a unit would read as its power. */
export function lettersOf(index: number): string {
  const rest = Math.floor(index / 26);
  return (rest > 0 ? lettersOf(rest - 1) : '') + String.fromCharCode(97 + (index % 26));
}

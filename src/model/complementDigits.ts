/** The decimal places of 1 - 0.`digits`, as many as are given; the last of them must not be 0. */
export function complementDigits(digits: string): string {
  let complement = '';
  for (let i = 0; i < digits.length - 1; i++) complement += 9 - Number(digits[i]);
  return complement + (10 - Number(digits[digits.length - 1]));
}

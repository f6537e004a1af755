/** Letters apart that a slip of the hand or of memory makes, in words of so many letters or more. */
const SLIPS = [
  { letters: 7, apart: 2 },
  { letters: 3, apart: 1 },
];

/** Letters from which a part of a word is meant for the whole of it. */
const LEAST_PART = 5;

/**
 * The one of the words that was likely meant by another: the same but for case, blanks and dashes, one or two letters off, or a
 * part of it ("Half_width" for `halfWidth`); `undefined` where none is near, and for a word that is one of them.
 */
export function likelyWord(given: string, words: readonly string[]): string | undefined {
  if (words.includes(given)) return undefined;
  const bare = (word: string) => word.toLowerCase().replace(/[\s_-]/g, '');
  const said = bare(given);
  const same = words.find((word) => bare(word) === said);
  if (same !== undefined || said.length > 40) return same;
  const most = SLIPS.find(({ letters }) => said.length >= letters)?.apart ?? 0;
  const near = words
    .map((word) => ({ word, apart: lettersApart(said, bare(word)) }))
    .filter(({ apart }) => apart <= most)
    .sort((a, b) => a.apart - b.apart)[0];
  return near?.word ?? (said.length >= LEAST_PART ? words.find((word) => bare(word).includes(said)) : undefined);
}

/** Letters put in, left out, exchanged or swapped with the next to come from one word to the other (Damerau 1964). */
function lettersApart(a: string, b: string): number {
  let [before, last]: number[][] = [[], Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        row[j] = Math.min(row[j], before[j - 2] + 1);
    }
    [before, last] = [last, row];
  }
  return last[b.length];
}

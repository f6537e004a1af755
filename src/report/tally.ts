/** How often each word was said, in the order given: "kept 2 of 3"; the word alone where only one was said. */
export function tally<Word extends string>(said: readonly Word[], words: readonly Word[]): string[] {
  return words.flatMap((word) => {
    const n = said.filter((one) => one === word).length;
    return n === 0 ? [] : said.length > 1 ? `${word} ${n} of ${said.length}` : word;
  });
}

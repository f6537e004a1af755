/** Tags in order, in columns that are written over again and again: as objects they would be most of what reading leaves to collect. */
export class XmlTags {
  count = 0;
  /** The name of an element that opens; the own text of one that closes. */
  readonly words: string[] = [];
  /** The index after each. */
  readonly ends: number[] = [];
  /** Where in the list below the attributes of one that opens begin; -1 of one that closes. */
  readonly firsts: number[] = [];
  /** Names and values in turn, of all of them. */
  readonly attributes: string[] = [];
  /** How many of that list are theirs. */
  listed = 0;
  /** Names and texts of the elements that `plainElement` is in. */
  readonly names: string[] = [];
  readonly texts: string[] = [];

  put(word: string, end: number, first = -1): void {
    this.words[this.count] = word;
    this.ends[this.count] = end;
    this.firsts[this.count++] = first;
  }
}

/** Text that is markup already: what {@link element} returns, and the only thing it doesn't escape. */
export class Markup {
  constructor(readonly text: string) {}

  toString(): string {
    return this.text;
  }
}

import type { FiguresRoute } from './AssessedFigures';
import type { TakenFigures } from './TakenFigures';

/**
 * Figures of many runs, kept in as little room as their numbers take: what they have in common, the line of the route and the
 * method in sentences, is kept once.
 */
export class FiguresShelf {
  readonly #all: TakenFigures[] = [];
  /** By the hash of the recipe. */
  readonly #routes = new Map<string, FiguresRoute>();
  /** By what stands in them. */
  readonly #lists = new Map<string, readonly string[]>();
  readonly #words = new Map<string, string>();

  add(figures: TakenFigures): void {
    const { method, recordings, rows, pairs } = figures;
    const { hash } = method.inputs[0];
    const route = this.#routes.get(hash) ?? figures.route;
    this.#routes.set(hash, route);
    this.#all.push({
      ...figures,
      route,
      method: { ...method, sentences: this.#list(method.sentences), cautions: this.#list(method.cautions) },
      recordings: recordings.map((one) => ({ ...one, name: this.#word(one.name) })),
      rows: rows.map((row) => ({ ...row, recording: this.#word(row.recording), section: this.#word(row.section) })),
      pairs: pairs.map((pair) => ({
        ...pair,
        first: this.#word(pair.first),
        second: this.#word(pair.second),
        section: this.#word(pair.section),
      })),
    });
  }

  get all(): readonly TakenFigures[] {
    return this.#all;
  }

  #word<Word extends string | null>(word: Word): Word {
    if (word === null) return word;
    const known = this.#words.get(word);
    if (known !== undefined) return known as Word;
    this.#words.set(word, word);
    return word;
  }

  #list(list: readonly string[]): readonly string[] {
    const key = JSON.stringify(list);
    const known = this.#lists.get(key);
    if (known === undefined) this.#lists.set(key, list);
    return known ?? list;
  }
}

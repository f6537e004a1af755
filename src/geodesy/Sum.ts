/**
 * A running sum whose rounding error does not grow with the number of terms.
 *
 * @see Neumaier, Rundungsfehleranalyse einiger Verfahren zur Summation endlicher Summen, ZAMM 54 (1974), algorithm IV
 */
export class Sum {
  #sum = 0;
  #lost = 0;

  add(term: number): void {
    const next = this.#sum + term;
    this.#lost += Math.abs(this.#sum) >= Math.abs(term) ? this.#sum - next + term : term - next + this.#sum;
    this.#sum = next;
  }

  get value(): number {
    return this.#sum + this.#lost;
  }
}

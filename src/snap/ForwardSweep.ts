import { dropHopeless, HOPELESS, MOST } from './dropHopeless';
import { Jumps } from './Jumps';
import { KnotStates } from './KnotStates';
import type { LatticeStates, Pin } from './LatticeStates';
import { pruneStates } from './pruneStates';
import type { StepWeights } from './StepWeights';

/** Metres of the route within which a state may outweigh another so that it goes no further. */
const OUTWEIGHED_WITHIN = 60;

/** What it weighs to join the route later than the recording begins, or to leave it before it ends. */
export const JOINS = Math.exp(-3);

/** What a sweep carries from knot to knot besides the states. */
export interface SweepWeights {
  /** Weight of having been outside the route so far: beside the heaviest path, and beside all. */
  readonly outside: number;
  readonly allOutside: number;
  /** The heaviest path that has ended. */
  readonly ended: number;
}

/**
 * The sweep over the lattice from knot to knot: the heaviest path into each state by max-product, and the weight of all paths
 * so far by sum-product, in the linear domain, scaled at every knot.
 *
 * Paths are weighed by how far the fixes lie from the route and by how the route moves along them against how the fixes
 * moved. Weights fall off as Student's t with 4 degrees of freedom, in two dimensions (1 + r²/4σ²)⁻³: heavy tails for
 * heavy-tailed errors, and no exponential in the inner loop.
 *
 * @see Newson & Krumm, Hidden Markov map matching through noise and sparseness, ACM GIS 2009: the idea of the model
 * @see Rabiner, A tutorial on hidden Markov models, Proc. IEEE 77 (1989), §III: the recursions and their scaling
 */
export class ForwardSweep {
  /** The states of the knot last taken that are worth going on from; empty before the first. */
  last = new KnotStates();
  /** Logarithm of what paths have been scaled by. */
  scaled = 0;
  readonly #states: LatticeStates;
  readonly #steps: StepWeights;
  readonly #sigma: Float64Array;
  readonly #pins: readonly Pin[];
  readonly #eased: number;
  readonly #jumps: Jumps;
  readonly #within: number;
  #spare = new KnotStates();
  #outside = 1;
  #allOutside = 1;
  #ended = 0;

  /**
   * @param sigma - Standard deviation of a fix at each bin, metres per axis.
   * @param eased - So many times likelier than by hindsight it is taken to be that a stretch is left out or gone over again.
   */
  constructor(states: LatticeStates, steps: StepWeights, sigma: Float64Array, pins: readonly Pin[], eased = 1) {
    const { spacing } = states.bins;
    this.#states = states;
    this.#steps = steps;
    this.#sigma = sigma;
    this.#pins = pins;
    this.#eased = eased;
    this.#jumps = new Jumps(spacing);
    this.#within = Math.round(OUTWEIGHED_WITHIN / spacing);
  }

  /** The heaviest path that has ended, as scaled so far. */
  get ended(): number {
    return this.#ended;
  }

  /** What is carried on besides the states: written to go on from another sweep. */
  get weights(): SweepWeights {
    return { outside: this.#outside, allOutside: this.#allOutside, ended: this.#ended };
  }

  set weights({ outside, allOutside, ended }: SweepWeights) {
    this.#outside = outside;
    this.#allOutside = allOutside;
    this.#ended = ended;
  }

  /** Takes the step to a knot, the next one; returns its states, those that are worth going on from. */
  step(knot: number): KnotStates {
    const states = this.#states;
    const steps = this.#steps;
    const sigma = this.#sigma;
    const jumps = this.#jumps;
    const { leftOut } = states.bins;
    const before = this.last;
    const here = this.#spare;
    if (knot > 0) steps.reach(knot);
    states.write(knot, before, steps.lowest, steps.highest, here);
    if (before.size > 0) steps.moveTo(knot, sigma[before.bin[0]]);
    const skip = steps.skip * this.#eased;
    if (before.size === 0 || (skip <= 1 && here.apart === 0 && this.#isOnePass(before))) {
      here.best.fill(0, 0, here.size);
      here.sum.fill(0, 0, here.size);
    } else {
      jumps.forward(before, here, skip);
      // where no step leads, and a skip at too high a price, unless nothing else is left
      let dear = 0;
      for (let j = 0; j < here.size; j++) {
        if (here.best[j] >= HOPELESS || here.sum[j] >= HOPELESS) here.marked[j] = 0;
        dear += here.marked[j];
      }
      if (dear < here.size) here.drop();
    }
    states.fit(knot, sigma, here);
    if (before.size > 0) steps.forward(before, here);
    const { best, sum, bin: binHere, emission, fit, came } = here;
    const joins = knot > 0 ? JOINS : 1;
    let led = 0;
    let ledAll = 0;
    let least = Infinity;
    for (let j = 0; j < here.size; j++) {
      const joined = joins * leftOut[binHere[j]];
      if (joined * this.#outside > best[j]) {
        best[j] = joined * this.#outside;
        came[j] = -1;
      }
      sum[j] += joined * this.#allOutside;
      if (best[j] > led) led = best[j];
      if (sum[j] > ledAll) ledAll = sum[j];
      if (best[j] * fit[j] < least) least = best[j] * fit[j];
    }
    // further than any weight can tell: all are as likely
    if (led === 0) {
      came.fill(heaviestOf(before), 0, here.size);
      best.fill((led = 1), 0, here.size);
    }
    if (ledAll === 0) sum.fill((ledAll = 1), 0, here.size);
    // none is worth less beside the others than by itself
    if (here.size > MOST || !(least > HOPELESS * led)) dropHopeless(here, led, ledAll);
    states.weigh(knot, this.#pins, here);
    const { size } = here;
    let top = 0;
    let most = 0;
    let heaviest = 0;
    for (let j = 0; j < size; j++) {
      best[j] *= emission[j];
      sum[j] *= emission[j];
      if (sum[j] > most) most = sum[j];
      if (best[j] <= top) continue;
      top = best[j];
      heaviest = j;
    }
    const leaves = states.outside(knot, here);
    top = Math.max(top, this.#outside * leaves, this.#ended * leaves);
    this.scaled += Math.log(top);
    this.#outside *= leaves / top;
    this.#ended *= leaves / top;
    // all that is outside is no path, so that the states alone set the scale as soon as there are any
    most = most > 0 ? most : this.#allOutside * leaves;
    this.#allOutside *= leaves / most;
    pruneStates(here, heaviest, this.#within, most);
    for (let j = 0; j < here.size; j++) {
      best[j] /= top;
      sum[j] /= most;
    }
    this.#spare = before;
    this.last = here;
    return here;
  }

  /**
   * Whether all states lie near the heaviest: none then weighs less than a hundredth of it, and where steps lead to all
   * of the next knot a skip from one to another adds less than a millionth.
   */
  #isOnePass({ size, bin, heaviest, lost }: KnotStates): boolean {
    return !lost && heaviest - bin[0] <= this.#within && bin[size - 1] - heaviest <= this.#within;
  }

  /** Ends paths on the knot last taken: the state on which one does that is heavier than all that ended before; -1 for none. */
  end(joins: number): number {
    const { size, best, bin } = this.last;
    const { leftOut, count } = this.#states.bins;
    let state = -1;
    for (let j = 0; j < size; j++) {
      const value = best[j] * leftOut[count - 1 - bin[j]] * joins;
      if (value <= this.#ended) continue;
      this.#ended = value;
      state = j;
    }
    return state;
  }
}

/** The state that the heaviest path leads to. */
function heaviestOf({ size, best }: KnotStates): number {
  let heaviest = 0;
  for (let k = 1; k < size; k++) if (best[k] > best[heaviest]) heaviest = k;
  return heaviest;
}

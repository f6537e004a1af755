import { LONG, NEIGHBOURS, STANDING, TOO_LONG } from './StepWeights';

/** Steps that say what the pace is: some 20 minutes. */
const MOST = 255;

/** What is written of a {@link RecentPace}. */
export interface SavedPace {
  readonly speeds: readonly number[];
  readonly around: readonly number[];
}

/** The pace of steps by those before them: the same medians as `StepWeights` takes of a whole recording. */
export class RecentPace {
  /** Metres a second: that of the step last taken, and the median of all that are remembered; 0 while nothing has moved. */
  pace = 0;
  /** Of the steps that moved, oldest first, and by size. */
  readonly #speeds: number[];
  readonly #sorted: number[];
  /** Of the last steps; 0 where it stood or the step says too little. */
  readonly #around: number[];

  constructor({ speeds, around }: SavedPace = { speeds: [], around: [] }) {
    this.#speeds = [...speeds];
    this.#sorted = [...speeds].sort((a, b) => a - b);
    this.#around = [...around];
    this.pace = this.#median();
  }

  /** Metres a second of the step last taken; 0 where it stood or says too little. */
  get latest(): number {
    return this.#around[this.#around.length - 1] ?? 0;
  }

  /** Takes a step of so many metres in so many seconds; returns the pace to be expected of it. */
  step(metres: number, seconds: number): number {
    const speeds = this.#speeds;
    const sorted = this.#sorted;
    const speed = metres / seconds;
    if (speed > STANDING) {
      if (speeds.length === MOST) sorted.splice(placeOf(sorted, speeds.shift()!), 1);
      speeds.push(speed);
      sorted.splice(placeOf(sorted, speed), 0, speed);
      this.pace = this.#median();
    }
    let expected = this.pace;
    if (seconds > LONG) {
      const around = this.#around.filter((one) => one > 0).sort((a, b) => a - b);
      if (around.length > 2) expected = around[around.length >> 1];
    }
    if (this.#around.length === NEIGHBOURS) this.#around.shift();
    this.#around.push(speed > STANDING && seconds <= TOO_LONG ? speed : 0);
    return expected;
  }

  save(): SavedPace {
    return { speeds: [...this.#speeds], around: [...this.#around] };
  }

  #median(): number {
    return this.#sorted[this.#sorted.length >> 1] ?? 0;
  }
}

/** Where a value stands among sorted ones, or would. */
function placeOf(sorted: readonly number[], value: number): number {
  let low = 0;
  for (let high = sorted.length; low < high; ) {
    const middle = (low + high) >> 1;
    if (sorted[middle] < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

import { WALK } from './FixTrack';

/** So many times in a row that are earlier than one before, but rise, and it is that one that was wrong, or the clock was set. */
const SET_BACK = 3;

/** What is written of a {@link RunningClock}. */
export interface SavedClock {
  readonly seconds: number;
  /** The time last believed, milliseconds, and the seconds then; null before the first. */
  readonly believed: number | null;
  readonly since: number;
  /** The time last given, and how many in a row were earlier than the one believed, each later than the one before. */
  readonly given: number | null;
  readonly back: number;
}

const begun: SavedClock = { seconds: 0, believed: null, since: 0, given: null, back: 0 };

/** A clock that never runs back, fix by fix: what `FixTrack` makes of a whole recording, as far as it is known at the time. */
export class RunningClock {
  /** Seconds since the first fix. */
  seconds: number;
  /** 1 where the fix last taken has a time that can't be its own. */
  mistrusted: 0 | 1 = 0;
  #believed: number | null;
  #since: number;
  #given: number | null;
  #back: number;

  constructor({ seconds, believed, since, given, back }: SavedClock = begun) {
    this.seconds = seconds;
    this.#believed = believed;
    this.#since = since;
    this.#given = given;
    this.#back = back;
  }

  /** Takes a fix that moved so many metres from the one before, at a pace of so many metres a second, 0 where it is unknown. */
  take(time: number | undefined, moved: number, pace: number): void {
    this.mistrusted = 0;
    const guessed = this.seconds + moved / (pace > 0 ? pace : WALK);
    if (time === undefined) {
      this.seconds = guessed;
      return;
    }
    if (this.#believed === null) {
      this.seconds = guessed;
      this.#believe(time);
    } else if (time > this.#believed) {
      this.seconds = Math.max(this.seconds, this.#since + (time - this.#believed) / 1000);
      this.#believe(time);
    } else {
      this.seconds = guessed;
      this.mistrusted = 1;
      this.#back = time > this.#given! && this.#back > 0 ? this.#back + 1 : 1;
      if (this.#back === SET_BACK) this.#believe(time);
    }
    this.#given = time;
  }

  save(): SavedClock {
    const { seconds } = this;
    return { seconds, believed: this.#believed, since: this.#since, given: this.#given, back: this.#back };
  }

  #believe(time: number): void {
    this.#believed = time;
    this.#since = this.seconds;
    this.#back = 0;
  }
}

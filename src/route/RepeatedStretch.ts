import type { Stretch } from '../model';

/** Two stretches of a route that run along each other. */
export interface RepeatedStretch {
  /** Metres along-track of the earlier stretch. */
  readonly first: Stretch;
  /** Metres along-track of the later stretch, from the smaller to the larger. */
  readonly second: Stretch;
  /** Whether it is run the same way as the first time, or the other way. */
  readonly direction: 'same' | 'opposite';
}

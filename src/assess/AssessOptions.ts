import type { Area } from '../areas';
import type { Line, OptionKeys } from '../model';
import type { Exclusion, SectionExclusion } from './Assessment';

/** Options of `assess`. */
export interface AssessOptions {
  /** The middle of the street: asks for the share on the right side of it. */
  readonly centreline?: Line;
  /** A mapped line that was not travelled: asks whether recordings are drawn to it. */
  readonly decoy?: Line;
  /** Stretches or sections to take out for all recordings alike, a detour really travelled for one. @defaultValue none */
  readonly exclude?: readonly (Exclusion | SectionExclusion)[];
  /** Two recordings are equivalent when the whole interval of their difference lies within this many metres of 0. @defaultValue 1 */
  readonly equivalence?: number;
  /** Metres by which a receiver may be off the line the body travels. @defaultValue 0.5 */
  readonly leverArm?: number;
  /** The receiver (or the recording, where none is stated) that alone the others are compared with. @defaultValue every two are compared */
  readonly baseline?: string;
  /** Metres beyond which an offset is an excursion where the route states no corridor. @defaultValue 10 */
  readonly defaultHalfWidth?: number;
  /**
   * Whether the recordings of a run with times were carried by one body, whose pace they share: then each has an error along
   * the route, and what one saw decides where another alone could not tell one pass of it from the next. `apart` places each
   * alone. @defaultValue 'shared'
   */
  readonly pace?: 'shared' | 'apart';
  /**
   * Ground that the recorded lines are judged by: where they can have been (roadways, paths), and where not (houses, water).
   * Those of one name are one. See `areasFromGeoJson`.
   */
  readonly areas?: readonly Area[];
}

/** The keys of {@link AssessOptions}. */
export const assessKeys: OptionKeys<AssessOptions> = {
  centreline: true,
  decoy: true,
  exclude: true,
  equivalence: true,
  leverArm: true,
  baseline: true,
  defaultHalfWidth: true,
  pace: true,
  areas: true,
};

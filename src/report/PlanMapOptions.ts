import type { OptionKeys } from '../model';
import { type StretchPictureOptions, stretchPictureKeys } from './PictureOptions';
import { type SurroundingOptions, surroundingKeys } from './SurroundingOptions';

/** Options of planMap. */
export interface PlanMapOptions extends StretchPictureOptions, SurroundingOptions {
  /** Only the surroundings of the worst place of this number. @defaultValue the whole route */
  readonly place?: number;
}

export const planMapKeys: OptionKeys<PlanMapOptions> = { ...stretchPictureKeys, ...surroundingKeys, place: true };

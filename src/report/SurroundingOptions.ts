import type { GeoJSON } from 'geojson';
import type { OptionKeys } from '../model';

/** What lies about the line, for everything that shows it from above. */
export interface SurroundingOptions {
  /**
   * What is drawn under the plan and the numbered places: lines and polygons, in two quiet tones by the property `kind` (`way`,
   * `house`, `water`, `green`, else plain), clipped to what is shown and thinned to the pixel; ways are labelled by their
   * `name` where there is room. @defaultValue none
   */
  readonly surroundings?: GeoJSON;
  /** Licence and source of the surroundings, which are printed. @defaultValue the document’s member `licence`; without either a warning is */
  readonly credit?: string;
}

export const surroundingKeys: OptionKeys<SurroundingOptions> = { surroundings: true, credit: true };

import type { OptionKeys, ReceiverLooks } from '../model';
import type { PictureTheme } from './pictureStyle';

/** What every picture can be asked for. */
export interface PictureOptions {
  /** Pixels, 240 to 10 000. @defaultValue 900, of a distribution 600 */
  readonly width?: number;
  /** Pixels of its ordinary words, 8 to 96: lines and marks grow with them. @defaultValue 12 */
  readonly textSize?: number;
  /** As the reader prefers, or one whatever they prefer: only then converters to other formats know its colours. @defaultValue 'reader' */
  readonly theme?: PictureTheme;
  /** Only these, by their names in the report. @defaultValue all */
  readonly receivers?: readonly string[];
  /** How they are drawn. @defaultValue by their names */
  readonly looks?: ReceiverLooks;
}

/** What a picture along the route can be asked for as well. */
export interface StretchPictureOptions extends PictureOptions {
  /** Only this section. @defaultValue the whole route */
  readonly section?: string;
  /** Only these metres of the route, instead of a section. @defaultValue the whole route */
  readonly stretch?: { readonly from: number; readonly to: number };
  /** Pixels that it is high, at most for a plan, 120 to 10 000, without the key. @defaultValue as its width needs */
  readonly height?: number;
}

export const pictureKeys: OptionKeys<PictureOptions> = {
  width: true,
  textSize: true,
  theme: true,
  receivers: true,
  looks: true,
};

export const stretchPictureKeys: OptionKeys<StretchPictureOptions> = {
  ...pictureKeys,
  section: true,
  stretch: true,
  height: true,
};

import type { Position } from 'geojson';

/** A place of a picture, and where on the globe it is. */
export interface ControlPoint {
  /** Picture elements from the left edge. */
  readonly x: number;
  /** Picture elements from the upper edge. */
  readonly y: number;
  readonly position: Position;
}

/** A picture or scan to draw over. */
export interface PlacedPicture {
  readonly name: string;
  /** The picture itself. */
  readonly file: Blob;
  /** Picture elements. */
  readonly width: number;
  readonly height: number;
  readonly points: readonly ControlPoint[];
  /** Whether it is kept with the line when that is saved in this browser. */
  readonly keep: boolean;
}

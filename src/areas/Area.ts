import type { FeatureCollection, MultiPolygon, Polygon } from 'geojson';
import type { Name, ReadIssue, Size } from '../model';

/**
 * - `allowed`: where the body can have been: a roadway, a path, a square
 * - `impossible`: where it cannot: a house, water
 */
export type AreaKind = 'allowed' | 'impossible';

/**
 * Ground that recordings are judged by. Several of one name are one area. Edges are straight in longitude and latitude, as
 * RFC 7946 section 3.1.1 has them, and rings may run either way; what lies in a hole is outside, by even and odd.
 */
export interface Area {
  readonly name: Name;
  readonly kind: AreaKind;
  /** A collection holds polygons only. */
  readonly geometry: Polygon | MultiPolygon | FeatureCollection;
  /** Metres that its edges are known to (95 %): a place nearer to one is neither inside nor outside. @defaultValue 0 */
  readonly doubt95?: Size;
  /** What was left out of the document it was read from. */
  readonly issues?: readonly ReadIssue[];
}

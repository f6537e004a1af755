import type { Position } from 'geojson';
import type { AreaKind } from './Area';

/** An area as its name has it. */
export interface NamedArea {
  readonly name: string;
  readonly kind: AreaKind;
}

/** One polygon of an area: closed rings, the first the outer one. */
export interface AreaPolygon {
  /** Number of its area. */
  readonly area: number;
  /** Metres. */
  readonly doubt95: number;
  readonly rings: readonly (readonly Position[])[];
}

/** Areas whose rings have been checked. */
export interface AreaRings {
  readonly areas: readonly NamedArea[];
  readonly polygons: readonly AreaPolygon[];
}

import type { GeoJSON, Position } from 'geojson';
import { unwrapLongitude } from '../geodesy';
import { surroundingShapes } from './checkSurroundings';
import type { ReportModel } from './reportModel';
import type { Point, RoutePlane } from './routePlane';

/** Tones of what lies under a plan, in the order of drawing. */
export const GROUND_TONES = ['green', 'water', 'plain', 'way', 'house', 'allowed', 'impossible'] as const;

/** How something is drawn: surroundings by what they are, areas by their kind. */
export type GroundTone = (typeof GROUND_TONES)[number];

/** What lies under every plan of one report, in metres east and north. */
export interface GroundShape {
  readonly tone: GroundTone;
  /** Whether the lines are the rings of a polygon, or a line. */
  readonly closed: boolean;
  readonly lines: readonly (readonly Point[])[];
  /** Of a way that is named. */
  readonly name: string | null;
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** Degrees of latitude about the route beyond which nothing is drawn: some 5 km, wider than any plan’s margin of a day’s walk. */
const ABOUT = 0.05;

/** The areas that were judged by, and the surroundings as far as they lie near the route. */
export function groundShapes(route: ReportModel['route'], plane: RoutePlane, surroundings?: GeoJSON): GroundShape[] {
  const shapes: GroundShape[] = [];
  const add = (tone: GroundTone, closed: boolean, lines: readonly (readonly Point[])[], name: string | null) => {
    let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const line of lines) {
      for (const [x, y] of line) {
        if (x < west) west = x;
        if (x > east) east = x;
        if (y < south) south = y;
        if (y > north) north = y;
      }
    }
    shapes.push({ tone, closed, lines, name, west, south, east, north });
  };
  if (surroundings !== undefined) {
    const near = boxOf(route.line);
    for (const { kind, lines, properties } of surroundingShapes(surroundings, 'options.surroundings')) {
      const kept = lines.filter((line) => line.length > 1);
      if (kept.length === 0 || !reaches(near, kept[0])) continue;
      const own = kept.map((line) => line.map(([longitude, latitude]) => plane.toPlane(longitude, latitude)));
      const name = kind === 'line' && typeof properties.name === 'string' ? properties.name : null;
      add(toneOf(properties.kind, kind), kind === 'polygon', own, name);
    }
  }
  for (const { kind, polygons } of route.areas ?? []) {
    for (const rings of polygons) {
      const own = rings.map(({ lon, lat }) => lon.map((longitude, i) => plane.toPlane(longitude, lat[i])));
      add(kind, true, own, null);
    }
  }
  return shapes;
}

function toneOf(kind: unknown, shape: 'line' | 'polygon'): GroundTone {
  if (kind === 'way' || kind === 'house' || kind === 'water' || kind === 'green') return kind;
  return shape === 'line' ? 'way' : 'plain';
}

interface DegreeBox {
  readonly near: number;
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
}

function boxOf({ lon, lat }: ReportModel['route']['line']): DegreeBox {
  const [south, north] = [lat.reduce((a, b) => Math.min(a, b)) - ABOUT, lat.reduce((a, b) => Math.max(a, b)) + ABOUT];
  const aside = ABOUT / Math.max(0.01, Math.cos((Math.max(-south, north) * Math.PI) / 180));
  return {
    near: lon[0],
    west: lon.reduce((a, b) => Math.min(a, b)) - aside,
    east: lon.reduce((a, b) => Math.max(a, b)) + aside,
    south,
    north,
  };
}

function reaches({ near, west, east, south, north }: DegreeBox, line: readonly Position[]): boolean {
  let [least, most, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [longitude, latitude] of line) {
    const x = unwrapLongitude(longitude, near);
    least = Math.min(least, x);
    most = Math.max(most, x);
    low = Math.min(low, latitude);
    high = Math.max(high, latitude);
  }
  return most >= west && least <= east && high >= south && low <= north;
}

import { InputError } from 'datumline';
import type { MultiPolygon, Polygon, Position } from 'geojson';

/** Positions as rows of text: longitude, latitude and a height where there is one. */
export function rowsOf(positions: readonly Position[]): string {
  return positions.map((position) => position.join(' ')).join('\n');
}

/**
 * Positions from rows of text, their numbers parted by blanks, commas or semicolons.
 *
 * @throws {InputError} naming the row that holds none
 */
export function positionsIn(text: string): Position[] {
  return text
    .split('\n')
    .map((row) => row.trim())
    .flatMap((row, i) => {
      if (row === '') return [];
      const numbers = row.split(/[\s,;]+/).map(Number);
      if ((numbers.length === 2 || numbers.length === 3) && numbers.every(Number.isFinite)) return [numbers];
      const rule = 'a longitude and a latitude';
      throw new InputError({ reason: 'unreadable', argument: `row ${i + 1}`, rule, value: row });
    });
}

/** The corners of an area as rows: an empty row before each hole, `---` before each further polygon. */
export function areaRows(area: Polygon | MultiPolygon): string {
  const polygons = area.type === 'Polygon' ? [area.coordinates] : area.coordinates;
  return polygons.map((rings) => rings.map((ring) => rowsOf(ring.slice(0, -1))).join('\n\n')).join('\n---\n');
}

/**
 * An area from the rows of its corners; undefined from none.
 *
 * @throws {InputError} a row that holds no position, a ring of fewer than three corners
 */
export function areaIn(text: string): Polygon | MultiPolygon | undefined {
  const trimmed = text
    .split('\n')
    .map((row) => row.trim())
    .join('\n')
    .trim();
  if (trimmed === '') return undefined;
  const polygons = trimmed.split(/^---$/m).map((polygon) =>
    polygon
      .trim()
      .split(/\n{2,}/)
      .map((rows) => {
        const ring = positionsIn(rows);
        if (ring.length < 3) {
          throw new InputError({
            reason: 'too-few',
            argument: 'area',
            rule: 'of at least 3 corners',
            value: ring.length,
          });
        }
        return [...ring, ring[0]];
      }),
  );
  return polygons.length === 1
    ? { type: 'Polygon', coordinates: polygons[0] }
    : { type: 'MultiPolygon', coordinates: polygons };
}

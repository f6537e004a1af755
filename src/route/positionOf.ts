import type { Position } from 'geojson';
import { wrapLongitude } from '../geodesy';
import { checkFinite, checkPosition } from '../model';

/**
 * An authored position as `[longitude, latitude]`, the longitude within [-180, 180); a height is left out.
 *
 * @throws {InputError} as `checkPosition`, and a height that is no finite number
 */
export function positionOf(position: unknown, argument: string): Position {
  checkPosition(position, argument);
  for (let i = 2; i < position.length; i++) checkFinite(position[i], `${argument} height`);
  return [wrapLongitude(position[0]) + 0, position[1] + 0];
}

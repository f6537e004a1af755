import { checkFinite } from './checkFinite';
import { InputError } from './InputError';

/**
 * Refuses anything but `[longitude, latitude, height?]` with finite numbers and a latitude on the globe.
 *
 * @param index of `value` in an array called `argument`; joined to the name only if it is needed
 * @throws {InputError} `wrong-type`, `not-finite`, `out-of-range`, or `swapped` where exchanging the two would mend it
 */
export function checkPosition(value: unknown, argument: string, index?: number): asserts value is readonly number[] {
  const pair = Array.isArray(value) && value.length > 1;
  if (pair && onGlobe(value[0], value[1])) return;
  const name = index === undefined ? argument : `${argument}[${index}]`;
  if (!pair) throw new InputError({ reason: 'wrong-type', argument: name, rule: '[longitude, latitude]', value });
  checkCoordinates(value[0], value[1], name);
}

function onGlobe(longitude: unknown, latitude: unknown): boolean {
  return (
    typeof longitude === 'number' &&
    typeof latitude === 'number' &&
    Math.abs(longitude) <= 540 &&
    Math.abs(latitude) <= 90
  );
}

/** As {@link checkPosition}, for a longitude and a latitude held apart. */
export function checkCoordinates(longitude: unknown, latitude: unknown, argument: string): void {
  if (onGlobe(longitude, latitude)) return;
  const lon = checkFinite(longitude, `${argument} longitude`);
  const lat = checkFinite(latitude, `${argument} latitude`);
  const swapped = Math.abs(lat) > 90 && Math.abs(lon) <= 90 && Math.abs(lat) <= 180;
  const [part, most, value] = Math.abs(lat) > 90 ? ['latitude', 90, lat] : ['longitude', 540, lon];
  throw new InputError({
    reason: swapped ? 'swapped' : 'out-of-range',
    argument: `${argument} ${part}`,
    rule: `within [-${most}, ${most}]`,
    value,
    hint: swapped ? 'Positions are [longitude, latitude]; these two look swapped' : undefined,
  });
}

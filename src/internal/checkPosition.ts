import { InputError } from '../errors';

/**
 * Refuses anything but `[longitude, latitude, height?]` with finite numbers and a latitude on the globe.
 *
 * @throws {InputError} `wrong-type`, `not-finite`, `out-of-range`, or `swapped` where exchanging the two would mend it
 */
export function checkPosition(value: unknown, argument: string): asserts value is readonly number[] {
  if (!Array.isArray(value) || value.length < 2) {
    throw new InputError({ reason: 'wrong-type', argument, rule: '[longitude, latitude]', value });
  }
  checkCoordinates(value[0], value[1], argument);
}

/** As {@link checkPosition}, for a longitude and a latitude held apart. */
export function checkCoordinates(longitude: unknown, latitude: unknown, argument: string): void {
  if (typeof longitude !== 'number' || typeof latitude !== 'number') {
    const [part, value] = typeof longitude !== 'number' ? ['longitude', longitude] : ['latitude', latitude];
    throw new InputError({ reason: 'wrong-type', argument: `${argument} ${part}`, rule: 'a number', value });
  }
  if (!Number.isFinite(longitude) || !Number.isFinite(latitude)) {
    const [part, value] = !Number.isFinite(longitude) ? ['longitude', longitude] : ['latitude', latitude];
    throw new InputError({ reason: 'not-finite', argument: `${argument} ${part}`, rule: 'a finite number', value });
  }
  if (!(Math.abs(latitude) <= 90)) {
    const swapped = Math.abs(longitude) <= 90 && Math.abs(latitude) <= 180;
    throw new InputError({
      reason: swapped ? 'swapped' : 'out-of-range',
      argument: `${argument} latitude`,
      rule: 'within [-90, 90]',
      value: latitude,
      ...(swapped ? { hint: 'Positions are [longitude, latitude]; these two look swapped' } : {}),
    });
  }
  if (!(Math.abs(longitude) <= 540)) {
    throw new InputError({
      reason: 'out-of-range',
      argument: `${argument} longitude`,
      rule: 'within [-540, 540]',
      value: longitude,
    });
  }
}

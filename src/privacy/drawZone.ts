import type { Position } from 'geojson';
import { checkNumber, checkOptions, checkPosition, type GivenPosition, InputError } from '../model';

/** A disc to be kept out of what is published. */
export interface DiscZone {
  /** The place to hide. */
  readonly centre: Position;
  /** At least so many metres around it are hidden. */
  readonly radius: number;
  /**
   * Where the centre of what is really cut out lies from the place: azimuth in degrees, distance in metres. The disc cut
   * out is larger by that distance, so that it covers the one asked for. @defaultValue drawn anew at each use
   */
  readonly offset?: { readonly azimuth: number; readonly distance: number };
}

/** Options of {@link drawZone}. */
export interface DrawZoneOptions {
  /** At least so many metres around the place are hidden. */
  readonly radius: number;
  /** Numbers in [0, 1). @defaultValue the platform's cryptographic generator */
  readonly random?: () => number;
}

/**
 * A disc that hides `place` without having it at its centre: keep it, and use the same one for every recording.
 *
 * Where tracks end on a circle, its centre can be worked out, and with it the place; and where the offset is drawn anew
 * for each recording, the mean of many tells it again.
 *
 * @example
 * const { offset } = drawZone([5, 60], { radius: 200, random: () => 0.4 });
 * offset // → { azimuth: 144, distance: 100 }
 *
 * @throws {InputError} a position not on the globe, a radius not above 0, or a `random` that gives no number from 0 to 1
 * @remarks Offset uniform in azimuth, and between 0.3 and 0.8 radii in distance: common practice, no source.
 */
export function drawZone(place: GivenPosition, options: DrawZoneOptions): DiscZone {
  checkOptions(options, { radius: true, random: true });
  checkPosition(place, 'place');
  const radius = checkNumber(options?.radius, 'options.radius', { above: 0 });
  const { random = unforeseeable } = options;
  if (typeof random !== 'function') {
    throw new InputError({ reason: 'wrong-type', argument: 'options.random', rule: 'a function', value: random });
  }
  const draw = () => {
    const drawn = checkNumber(random(), 'options.random()', { min: 0, max: 1 });
    // 1 is none of the numbers asked for, and as good as 0
    return drawn === 1 ? 0 : drawn;
  };
  const azimuth = draw() * 360;
  return { centre: [...place], radius, offset: { azimuth, distance: radius * (0.3 + 0.5 * draw()) } };
}

function unforeseeable(): number {
  return globalThis.crypto.getRandomValues(new Uint32Array(1))[0] / 2 ** 32;
}

import { localPlane } from '../../src/geodesy/localPlane';
import { seeded } from './randomLine';
import type { SimulatedRide } from './simulateRide';

/** Fixes thrown aside for an instant: how many, how many in a row at the most, and how far in metres, in any direction. */
export interface Glitches {
  readonly share: number;
  readonly inRow?: 1 | 2;
  readonly least?: number;
  readonly most?: number;
}

/** A ride of which some fixes are thrown aside, each in a direction of its own, and 1 where one is. */
export function withGlitches(
  ride: SimulatedRide,
  { share, inRow = 1, least = 20, most = 400 }: Glitches,
  seed: number,
): SimulatedRide & { readonly thrown: Uint8Array } {
  const { lon, lat } = ride.recording;
  const random = seeded(104_729 * seed + 17);
  const { toPlane, toPosition } = localPlane([lon[0], lat[0]]);
  const thrown = new Uint8Array(lon.length);
  const [east, north] = [lon.slice(), lat.slice()];
  for (let i = 1; i < lon.length - 1; i++) {
    if (random() >= share / inRow || thrown[i - 1] === 1) continue;
    const angle = 2 * Math.PI * random();
    const metres = least + (most - least) * random();
    for (let k = i; k < Math.min(i + inRow, lon.length - 1); k++) {
      thrown[k] = 1;
      const [x, y] = toPlane([lon[k], lat[k]]);
      [east[k], north[k]] = toPosition([x + metres * Math.cos(angle), y + metres * Math.sin(angle)]);
    }
  }
  return { ...ride, recording: { ...ride.recording, lon: east, lat: north }, thrown };
}

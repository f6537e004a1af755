import { direct, type Recording, type Route, routeBuilder } from 'datumline';
import { correlatedOffsets, normals } from '../../test/support/correlatedOffsets';

const START: [number, number] = [2.1, 61.4];

/** A winding route of so many metres in ten sections and six recordings of it: a fix a second at 3 m/s, errors of σ 5 m. */
export function windingRide(length: number): { route: Route; recordings: Recording[] } {
  const builder = routeBuilder({ lateral95: 0.8 }).start(START);
  let at = START;
  let azimuth = 90;
  const line: [number, number][] = [];
  for (let s = 0; s < length; s += 3) {
    if (s % Math.round(length / 10 / 3 / 3) === 0) azimuth += Math.sin(s) * 20;
    if (Math.floor(s / (length / 10)) !== Math.floor((s - 3) / (length / 10))) {
      builder.section(`section ${Math.floor(s / (length / 10)) + 1}`, { halfWidth: 8 });
    }
    line.push(at);
    at = direct(at, azimuth + 40 * Math.sin(s / 150), 3).position as [number, number];
    builder.lineTo(at);
  }
  const normal = normals(5);
  const recordings = Array.from({ length: 6 }, (_, i): Recording => {
    const across = correlatedOffsets(normal, { seconds: line.length, correlation: 30 });
    const along = correlatedOffsets(normal, { seconds: line.length, correlation: 30, sigma: 3 });
    const moved = line.map((position, k) => direct(direct(position, 0, across[k]).position, 90, along[k]).position);
    return {
      name: `receiver ${i + 1}`,
      lon: Float64Array.from(moved, ([lon]) => lon),
      lat: Float64Array.from(moved, ([, lat]) => lat),
      time: Float64Array.from(moved, (_, k) => Date.UTC(2031, 0, 1) + 1000 * k),
      gapBefore: Uint8Array.from(moved, (_, k) => (k === 0 ? 1 : 0)),
      issues: [],
      source: { format: 'gpx' },
      attributes: {},
    };
  });
  return { route: builder.build(), recordings };
}

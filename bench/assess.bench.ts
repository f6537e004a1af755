import { assess, combine, direct, type Recording, routeBuilder, snap } from 'datumline';
import { correlatedOffsets, normals } from '../test/support/correlatedOffsets';
import type { Bench } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

const START: [number, number] = [2.1, 61.4];

/** Six recordings of a winding route at one fix a second and 3 m/s, errors of σ 5 m across and along, ten sections. */
export const run: Bench = ({ smoke }) => {
  const length = smoke ? 1000 : 10_000;
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
  const route = builder.build();
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
  const once = assess(route, recordings);
  const { whole, snapping, combining } = medianTime(
    {
      whole: () => assess(route, recordings).pairs.length,
      snapping: () => recordings.map((recording) => snap(route, recording)).length,
      combining: () => combine([once, once, once]).pairs.length,
    },
    smoke ? 1 : 7,
  );
  const size = `6 recordings × ${length / 1000} km at 1 Hz`;
  return [
    {
      what: `assess, ${size}: all figures, intervals, pairs`,
      ...promised(whole, 1500),
      peers: [{ name: 'placing the fixes alone', time: showTime(snapping) }],
    },
    { what: `combine, three runs of ${size}`, ours: showTime(combining) },
  ];
};

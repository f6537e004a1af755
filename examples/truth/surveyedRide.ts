import { direct, pointAt, type Recording, type Route, recordingFrom } from 'datumline';

/** An invented receiver: metres of a standard deviation along and across, metres it lies to the right, seconds late. */
interface Receiver {
  readonly sigma: number;
  readonly aside: number;
  readonly late: number;
  /** Seconds of the ride without a fix. */
  readonly out?: readonly [from: number, to: number];
}

const receivers: Readonly<Record<string, Receiver>> = {
  'receiver A': { sigma: 1.5, aside: 0, late: 0.2 },
  'receiver B': { sigma: 3.5, aside: 1.5, late: 0.9 },
  'receiver C': { sigma: 3, aside: 0, late: 0.2, out: [260, 325] },
};
/** Seconds after which an error has lost 63 % of its memory. */
const MEMORY = 20;
const WAIT = 25;

/**
 * One ride along a route with a survey-grade receiver, ten fixes a second known to a decimetre, and three others, one a second:
 * a pace that wanders, a stop of 25 s half way. All invented, the same for the same seed.
 */
export function surveyedRide(route: Route, start: number, seed: number): { truth: Recording; carried: Recording[] } {
  const gaussian = gaussianFrom(seed);
  // metres along at each tenth of a second
  const way: number[] = [0];
  for (let tick = 1; way[way.length - 1] < route.length - 1; tick++) {
    const pace = 4.5 + Math.sin(tick / 210 + seed) + 0.6 * Math.sin(tick / 67);
    way.push(Math.min(route.length, way[way.length - 1] + pace / 10));
    if (way.length === Math.round((10 * route.length) / 9))
      for (let k = 0; k < 10 * WAIT; k++) way.push(way[way.length - 1]);
  }
  const placed = (tick: number) => pointAt(route, way[Math.max(0, Math.min(way.length - 1, Math.round(tick)))]);
  const truth = recordingFrom({
    name: 'survey',
    lon: way.map((_, tick) => placed(tick).position[0]),
    lat: way.map((_, tick) => placed(tick).position[1]),
    time: way.map((_, tick) => start + 100 * tick),
  });
  const seconds = Math.floor((way.length - 1) / 10);
  const carried = Object.entries(receivers).map(([name, { sigma, aside, late, out }]) => {
    const keep = Math.exp(-1 / MEMORY);
    const fresh = Math.sqrt(1 - keep * keep);
    let [ahead, right] = [gaussian(), gaussian()];
    const fixes: { lon: number; lat: number; time: number }[] = [];
    for (let second = 3; second < seconds; second++) {
      ahead = keep * ahead + fresh * gaussian();
      right = keep * right + fresh * gaussian();
      if (out && second >= out[0] && second < out[1]) continue;
      const { position, azimuth } = placed(10 * (second - late));
      const [along, across] = [sigma * ahead, aside + sigma * right];
      const turn = (Math.atan2(across, along) * 180) / Math.PI;
      const [lon, lat] = direct(position, azimuth + turn, Math.hypot(along, across)).position;
      fixes.push({ lon, lat, time: start + 1000 * second });
    }
    return recordingFrom({
      name,
      lon: fixes.map(({ lon }) => lon),
      lat: fixes.map(({ lat }) => lat),
      time: fixes.map(({ time }) => time),
    });
  });
  return { truth, carried };
}

/** Normal numbers by Box and Muller from a small generator of our own. */
function gaussianFrom(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

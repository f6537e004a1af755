import { localPlane, pointAt, type Route } from 'datumline';

/** One fix of an invented receiver; a new `segment` begins after an outage. */
interface Fix {
  readonly lon: number;
  readonly lat: number;
  readonly height: number;
  readonly time: number;
  readonly segment: number;
}

/** What each kind of place does: pace in m/s, standard error in metres, metres pulled to the left. */
const places: Record<string, { pace: number; sigma: number; pull: number }> = {
  quay: { pace: 5.5, sigma: 1.2, pull: 0 },
  'timber lanes': { pace: 3.5, sigma: 3, pull: 0 },
  // the rock stands on the right: signals come by way of the water, and the fixes drift away from it
  'cliff road': { pace: 5, sigma: 3.5, pull: 4 },
  tunnel: { pace: 5, sigma: 6, pull: 0 },
  'spruce switchbacks': { pace: 3, sigma: 2.5, pull: 0 },
  'sports ground': { pace: 4.5, sigma: 1.2, pull: 0 },
};

/** What sets the invented receivers apart: their share of the error, and how many seconds they smooth over. */
const receivers: Record<string, { own: number; smoothing: number }> = {
  A: { own: 0.7, smoothing: 0 },
  B: { own: 1.2, smoothing: 0 },
  C: { own: 1, smoothing: 3 },
};

/** A body between receiver and sky costs a little. */
const wearing: Record<string, number> = { handlebar: 1, chest: 1.2, helmet: 0.9 };

/** Seconds after which an error has lost 63 % of its memory. */
const MEMORY = 25;

/**
 * One round by several receivers on one body, one fix a second: a common error that all share, one of each receiver's own,
 * a pull away from the cliff, no fixes in the tunnel and a bad half minute after it, a stop in the lanes.
 */
export function simulateRide(route: Route, worn: Readonly<Record<string, string>>, start: number, seed: number) {
  const gaussian = gaussianFrom(seed);
  const drift = (memory: number) => {
    const keep = Math.exp(-1 / memory);
    let value = gaussian();
    return () => (value = keep * value + Math.sqrt(1 - keep * keep) * gaussian());
  };
  const names = Object.keys(worn);
  const riding = drift(20);
  const common = [drift(MEMORY), drift(MEMORY)];
  const own = names.map(() => [drift(MEMORY), drift(MEMORY)]);
  const noise = names.map(() => [gaussian, gaussian]);
  const smoothed = names.map(() => [Number.NaN, Number.NaN]);
  const fixes = names.map((): Fix[] => []);
  const plane = localPlane([route.lon[0], route.lat[0]]);
  const lanes = route.sections.find(({ name }) => name === 'timber lanes')!;
  const stopAt = (lanes.from + lanes.to) / 2;
  let stopped = 0;
  let alongTrack = 0;
  let pace = 0;
  let segment = 0;
  let sinceTunnel = Number.POSITIVE_INFINITY;
  for (let second = 0; alongTrack < route.length; second++) {
    const section = route.sections.find(({ to }) => alongTrack < to) ?? route.sections.at(-1)!;
    const place = places[section.name];
    const { position, azimuth } = pointAt(route, alongTrack);
    const radian = (azimuth * Math.PI) / 180;
    const [ahead, right] = [
      [Math.sin(radian), Math.cos(radian)],
      [Math.cos(radian), -Math.sin(radian)],
    ];
    const [east, north] = plane.toPlane(position);
    const aside = 0.25 * riding() - place.pull;
    const shared = common.map((next) => next());
    const inTunnel = section.name === 'tunnel';
    if (inTunnel) sinceTunnel = 0;
    else if (sinceTunnel === 0) segment++;
    const settling = 12 * Math.exp(-sinceTunnel / 12);
    names.forEach((name, k) => {
      const { own: share, smoothing } = receivers[name];
      const error = [0, 1].map((axis) => {
        const correlated = 0.6 * shared[axis] + 0.8 * share * own[k][axis]();
        return place.sigma * wearing[worn[name]] * correlated + 0.15 * noise[k][axis]();
      });
      const lag = settling * share;
      const measured = [
        east + right[0] * aside + error[0] - ahead[0] * lag + right[0] * lag * 0.5,
        north + right[1] * aside + error[1] - ahead[1] * lag + right[1] * lag * 0.5,
      ];
      const keep = smoothing > 0 && Number.isFinite(smoothed[k][0]) ? Math.exp(-1 / smoothing) : 0;
      smoothed[k] = measured.map((value, axis) => (keep === 0 ? value : keep * smoothed[k][axis] + (1 - keep) * value));
      if (inTunnel) return;
      const [lon, lat] = plane.toPosition([smoothed[k][0], smoothed[k][1]]);
      const height = 6 + 40 * Math.sin((Math.PI * alongTrack) / route.length) ** 2 + 2 * error[0];
      fixes[k].push({ lon, lat, height, time: start + 1000 * second, segment });
    });
    if (!inTunnel && sinceTunnel < 60) sinceTunnel++;
    const wanted = alongTrack > stopAt && stopped < 40 ? 0 : place.pace;
    if (wanted === 0) stopped++;
    pace += 0.4 * (wanted - pace);
    alongTrack += Math.max(0, pace + (wanted === 0 ? -pace : 0.2 * gaussian()));
  }
  return names.map((receiver, k) => ({ receiver, fixes: fixes[k] }));
}

/** Normal deviates from a seeded generator, by Box and Muller's method. */
function gaussianFrom(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

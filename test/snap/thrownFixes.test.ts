import { describe, expect, test, vi } from 'vitest';
import type { Snapped } from '../../src/model';
import { FixTrack } from '../../src/snap/FixTrack';
import { followRoute, snap } from '../../src/subpaths/snap';
import { type Glitches, withGlitches } from '../support/glitches';
import { ways } from '../support/hardRides';
import { simulateRide } from '../support/simulateRide';

/** Never used while anything was chosen; those were below 10. */
const HELD_BACK = 73;

/** Further than this along the route from the truth, metres, a fix is not on its place. */
const ON_PLACE = 30;

/** Rides with fixes thrown aside, and as they were without. */
const rides = (way: string, interval: number, glitches: Glitches) =>
  [3, 5, 8].map((sigma, k) => {
    const seed = 1000 * HELD_BACK + k;
    const whole = simulateRide(ways[way], { seed, sigma, interval });
    return { ...withGlitches(whole, glitches, seed), whole };
  });

/** A ride followed: what is answered at once, and what has settled 30 s later. */
function follow({ route, recording }: Pick<ReturnType<typeof withGlitches>, 'route' | 'recording'>, only?: Uint8Array) {
  const follower = followRoute(route, { lag: 30 });
  const { lon, lat, time } = recording;
  const atOnce = Array.from(lon, (_, i) =>
    only?.[i] === 1 ? undefined : follower.push({ position: [lon[i], lat[i]], time: time![i] }),
  );
  return { atOnce, settled: follower.end() };
}

describe.each(Object.keys(ways))('%s', (way) => {
  test.each(
    [1, 10].flatMap((interval) =>
      [0.005, 0.02, 0.05].flatMap((share) => ([1, 2] as const).map((inRow) => ({ interval, share, inRow }))),
    ),
  )(
    'a fix every $interval s, $share of them thrown 20–400 m aside, up to $inRow in a row: the others are where they were',
    (choice) => {
      const found = { placed: [0, 0], atOnce: [0, 0], settled: [0, 0] };
      for (const ride of rides(way, choice.interval, choice)) {
        const count = (k: number, { alongTrack, state }: Snapped, { atOnce, settled }: ReturnType<typeof follow>) => {
          const isOn = (i: number, place: number | undefined) =>
            place !== undefined && ride.thrown[i] === 0 && Math.abs(place - ride.alongTrack[i]) <= ON_PLACE ? 1 : 0;
          for (let i = 0; i < alongTrack.length; i++) {
            found.placed[k] += state[i] === 'on' ? isOn(i, alongTrack[i]) : 0;
            found.atOnce[k] += isOn(i, atOnce[i]?.located?.alongTrack);
          }
          for (const { index, alongTrack: place } of settled) found.settled[k] += isOn(index, place);
        };
        count(0, snap(ride.route, ride.recording), follow(ride));
        count(1, snap(ride.route, ride.whole.recording), follow(ride.whole));
      }
      for (const [thrown, whole] of Object.values(found)) expect(thrown / whole).toBeGreaterThanOrEqual(0.995);
    },
  );

  test('fixes thrown 60 m and more move no other by a metre, and none is taken for sound', () => {
    for (const ride of rides(way, 1, { share: 0.02, inRow: 2, least: 60 })) {
      const { lon, lat, time, gapBefore } = ride.recording;
      const sound = Array.from(lon.keys()).filter((i) => ride.thrown[i] === 0);
      const of = (column: ArrayLike<number>) => Float64Array.from(sound, (i) => column[i]);
      const recording = {
        ...ride.recording,
        lon: of(lon),
        lat: of(lat),
        time: of(time!),
        gapBefore: new Uint8Array(sound.length),
      };
      recording.gapBefore[0] = gapBefore[0];
      const placed = snap(ride.route, ride.recording);
      const without = snap(ride.route, recording);
      sound.forEach((i, k) => {
        expect(placed.state[i]).toBe('on');
        expect(Math.abs(placed.alongTrack[i] - without.alongTrack[k])).toBeLessThan(1);
      });
      const track = new FixTrack(ride.recording);
      expect(Array.from(lon.keys(), (i) => (track.isThrown(i) ? 1 : 0))).toEqual([...ride.thrown]);
    }
  });

  test('whoever follows answers all others as if none had been thrown', () => {
    for (const ride of rides(way, 1, { share: 0.02, inRow: 2, least: 60 })) {
      const { atOnce } = follow(ride);
      const without = follow(ride, ride.thrown).atOnce;
      atOnce.forEach((answer, i) => {
        if (ride.thrown[i] === 0) expect(answer).toEqual(without[i]);
        else if (answer!.state === 'on') expect(answer!.confidence).toBeLessThanOrEqual(0.85);
      });
    }
  });
});

describe('a fix is thrown', () => {
  const degree = 6_371_008.8 * (Math.PI / 180);
  /** Which of fixes so many metres north are thrown, so many seconds apart. */
  const thrownOf = (north: readonly number[], seconds = 1, gaps: readonly number[] = []) => {
    const track = new FixTrack({
      lon: new Float64Array(north.length).fill(5),
      lat: Float64Array.from(north, (metres) => 52 + metres / degree),
      time: Float64Array.from(north, (_, i) => 1e12 + 1000 * seconds * i),
      gapBefore: Uint8Array.from(north, (_, i) => (i === 0 || gaps.includes(i) ? 1 : 0)),
    });
    return Array.from(north.keys()).filter((i) => track.isThrown(i));
  };

  // a body gets 8 m in a second and its receiver errs by 10 m: 18 m a step, 26 m over two
  test.each<[string, number[], number, number[]]>([
    ['where it lies further off than a body gets', [0, 3, 6, 40, 12, 15, 18], 1, [3]],
    ['not where a body may have got there', [0, 3, 6, 26, 12, 15, 18], 1, []],
    ['with the one beside it', [0, 3, 6, 100, 90, 15, 18, 21], 1, [3, 4]],
    ['not with two beside it', [0, 3, 6, 100, 100, 100, 18, 21, 24], 1, []],
    ['not where the receiver stays there', [0, 3, 6, 100, 103, 106, 109], 1, []],
    ['not where the body goes that fast', [0, 40, 80, 120, 160, 200, 240], 1, []],
    ['not where one that goes that fast turns back', [0, 150, 300, 450, 600, 450, 300, 150, 0], 10, []],
    ['of two with one between them', [0, 3, 6, 9, 100, 15, -90, 21, 24, 27, 30], 1, [4, 6]],
  ])('%s', (_, north, seconds, expected) => {
    expect(thrownOf(north, seconds)).toEqual(expected);
    expect(thrownOf([...north].reverse(), seconds)).toEqual(expected.map((i) => north.length - 1 - i).reverse());
  });

  test('as many as there are in two seconds, however many that is', () => {
    const north = Array.from({ length: 60 }, (_, i) => (i >= 30 && i < 38 ? 100 : 0.3 * i));
    expect(thrownOf(north, 0.1)).toEqual([30, 31, 32, 33, 34, 35, 36, 37]);
  });

  test.each([10, 100, 1000])('of %d a second, each in another place, no more are asked than of ten', (rate) => {
    const lat = Float64Array.from({ length: 3000 }, (_, i) => 52 + ((i * 7919) % 3001) * 1e-5);
    const track = new FixTrack({
      lon: new Float64Array(3000).fill(5),
      lat,
      time: Float64Array.from(lat, (_, i) => 1e12 + (1000 * i) / rate),
      gapBefore: new Uint8Array(3000),
    });
    const asked = vi.spyOn(track, 'isApart');
    for (let i = 0; i < 3000; i++) track.isThrown(i);
    expect(asked.mock.calls.length / 3000).toBeGreaterThan(10);
    // 19 before it, each twice, and of each pair with one after it two more: 2 × (19 + 18 + … + 1) at the most
    expect(asked.mock.calls.length / 3000).toBeLessThanOrEqual(2 * 19 + 19 * 20);
  });

  test('not across an interruption: the body may have been elsewhere meanwhile', () => {
    const north = [0, 3, 6, 100, 12, 15, 18];
    expect(thrownOf(north)).toEqual([3]);
    for (const gap of [3, 4]) expect(thrownOf(north, 1, [gap])).toEqual([]);
  });
});

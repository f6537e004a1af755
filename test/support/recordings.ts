import type { Recording } from 'datumline';
import fc from 'fast-check';

const finite = (options: { min: number; max: number }) =>
  fc.double({ ...options, noNaN: true, noDefaultInfinity: true }).map((value) => value + 0); // no -0: text has none

const step = fc.record({
  east: finite({ min: -3e-5, max: 3e-5 }),
  north: finite({ min: -2e-5, max: 2e-5 }),
  /** Milliseconds, with all their digits. */
  wait: fc.oneof(fc.constant(1000), finite({ min: 900, max: 1100 })),
  height: fc.oneof(fc.constant(Number.NaN), finite({ min: -400, max: 8000 }), fc.constantFrom(1e-7, 1e-12, -1.5e-9)),
  hdop: fc.oneof(fc.constant(Number.NaN), finite({ min: 0.5, max: 30 })),
  satellites: fc.oneof(fc.constant(Number.NaN), fc.integer({ min: 0, max: 60 })),
  accuracy: fc.oneof(fc.constant(Number.NaN), finite({ min: 0.01, max: 80 })),
  timed: fc.integer({ min: 0, max: 9 }),
  gap: fc.integer({ min: 0, max: 9 }),
});

/** Text that XML can hold: no control characters but tab and line ends, no half characters. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML can't hold
const plain = (text: string) => !/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/.test(text);
const text = fc.string({ unit: 'binary', minLength: 1, maxLength: 12 }).filter(plain);
const words = fc.oneof(
  text,
  fc.stringMatching(/^[ \t\r\n'"&<>\]=ab]{1,8}$/),
  fc.constantFrom('a & b', '<x>', ' "q" ', "it's", ']]>', 'a\r\nb\tc', '=1+1', 'a,b;c'),
);

/**
 * A recording as a reader gives it: small steps, anywhere on the globe and over ±180°, some columns missing, some holding
 * gaps, single fixes between gaps, times with fractions of milliseconds.
 */
export const recordings: fc.Arbitrary<Recording> = fc
  .record({
    lon: fc.oneof(finite({ min: -180, max: 179.9 }), fc.constantFrom(179.9999, -179.9999, -180, 1e-9)),
    lat: fc.oneof(finite({ min: -84, max: 84 }), fc.constantFrom(1e-8, -60)),
    begin: finite({ min: 0, max: 4e12 }),
    steps: fc.array(step, { minLength: 2, maxLength: 12 }),
    columns: fc.subarray(['time', 'height', 'hdop', 'satellites', 'accuracy'] as const),
    name: words.filter((name) => name.trim() !== ''),
    attributes: fc.dictionary(
      fc
        .oneof(fc.constantFrom('cmt', 'desc', 'src', 'type', 'number', 'Sport', 'total_distance'), words)
        .filter((key) => key !== '__proto__'),
      fc.oneof(words, fc.boolean(), fc.integer(), finite({ min: -1e6, max: 1e6 })),
      { maxKeys: 4 },
    ),
  })
  .map(({ lon, lat, begin, steps, columns, name, attributes }): Recording => {
    const n = steps.length;
    const out = { lon: new Float64Array(n), lat: new Float64Array(n), time: new Float64Array(n) };
    const at = { lon, lat, time: begin };
    for (let i = 0; i < n; i++) {
      at.lon += steps[i].east;
      if (at.lon >= 180) at.lon -= 360;
      if (at.lon < -180) at.lon += 360;
      at.lat += steps[i].north;
      at.time += steps[i].wait;
      out.lon[i] = at.lon;
      out.lat[i] = at.lat;
      out.time[i] = steps[i].timed === 0 ? Number.NaN : at.time;
    }
    const column = (key: 'height' | 'hdop' | 'satellites' | 'accuracy') => Float64Array.from(steps, (one) => one[key]);
    const all = {
      time: out.time,
      height: column('height'),
      hdop: column('hdop'),
      satellites: column('satellites'),
      accuracy: column('accuracy'),
    };
    const kept = columns.filter((key) => all[key].some(Number.isFinite));
    return {
      name,
      lon: out.lon,
      lat: out.lat,
      ...Object.fromEntries(kept.map((key) => [key, all[key]])),
      gapBefore: Uint8Array.from(steps, ({ gap }, i) => (i === 0 || gap === 0 ? 1 : 0)),
      issues: [],
      source: { format: 'gpx', creator: 'someone' },
      attributes,
    };
  });

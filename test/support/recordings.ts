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

/** Values that no receiver says, and any program can put into a column. */
export const extremes = {
  number: fc.oneof(
    fc.double({ noDefaultInfinity: true }),
    fc.double({ min: -1e4, max: 1e4, noNaN: true }),
    fc.constantFrom(0, -0, 1, 5e-324, 1.7976931348623157e308, -9999, -32768, 12607, 1e21, -1e-7, Number.NaN),
  ),
  height: finite({ min: -1e300, max: 1e300 }),
  lon: fc.oneof(finite({ min: -180, max: 180 }), fc.constantFrom(-180, 180, 179.99999999999997, 0, -0, 5e-324)),
  lat: fc.oneof(finite({ min: -90, max: 90 }), fc.constantFrom(-90, 90, 0, -0, 5e-324)),
  time: fc.oneof(
    finite({ min: -1e5, max: 1e5 }),
    finite({ min: -62_167_219_200_000, max: 253_402_300_799_999 }),
    fc.constantFrom(0, -0.3, -1e-20, 1e-20, 999.9999999, -62_167_219_200_000, 253_402_300_799_999.97, 1e15, 9e15),
    fc.constantFrom(Number.NaN, 8.64e15, -8.64e15, 1_000_000, 1_001_000, 1_001_000.5, 99_999_999_999, 1e11),
  ),
  text: fc.oneof(
    fc.string({ unit: 'binary', maxLength: 6 }),
    fc.stringMatching(/^[ \t\r\n'"&<>\]=+@,;|ab0]{0,8}$/),
    fc.constantFrom('\ud800', 'a\udc00', '\u0000', '\u000b', '\u0085', '\u2028', '\ufeff', '\ufeffa', '\uffff', "''=", 'null'),
    fc.constantFrom('__proto__', 'constructor', 'toString', 'name', 'times', 'fix time', 'attribute number a', '#text', '@a'),
    fc.constantFrom('1e999', 'NaN', 'true', '-0', ' 7 ', '&#65;', '&amp;', '<![CDATA[', '-->', '?>', 'x'.repeat(70_000)),
  ), // biome-ignore format: lists of words
} as const;

/** A recording as any program could make it by hand: every column anything, gaps or none wherever. */
export const wildRecordings: fc.Arbitrary<Recording> = fc
  .record({
    n: fc.integer({ min: 2, max: 6 }),
    columns: fc.subarray(['time', 'height', 'hdop', 'satellites', 'accuracy'] as const),
    fixes: fc.array(
      fc.record({
        lon: extremes.lon,
        lat: extremes.lat,
        time: extremes.time,
        height: extremes.number,
        hdop: extremes.number,
        satellites: fc.oneof(fc.nat(60), extremes.number),
        accuracy: extremes.number,
        gap: fc.oneof(fc.constantFrom(0, 1), fc.nat(255)),
        /** As the one before in so many of its values. */
        repeats: fc.oneof(fc.constant('nothing'), fc.constantFrom('place', 'time', 'both')),
      }),
      { minLength: 6, maxLength: 6 },
    ),
    name: extremes.text,
    attributes: fc.array(
      fc.tuple(
        fc.oneof(fc.constantFrom('cmt', 'desc', 'src', 'type', 'number', 'name', 'description'), extremes.text),
        fc.oneof(extremes.text, fc.boolean(), extremes.number, fc.integer()),
      ),
      { maxLength: 3 },
    ),
  })
  .map(({ n, columns, fixes, name, attributes }): Recording => {
    const kept = fixes.slice(0, n).map((fix) => ({ ...fix }));
    for (let i = 1; i < n; i++) {
      const { repeats } = kept[i];
      if (repeats === 'place' || repeats === 'both')
        Object.assign(kept[i], { lon: kept[i - 1].lon, lat: kept[i - 1].lat });
      if (repeats === 'time' || repeats === 'both') kept[i].time = kept[i - 1].time;
    }
    const column = (key: 'lon' | 'lat' | 'time' | 'height' | 'hdop' | 'satellites' | 'accuracy') =>
      Float64Array.from(kept, (fix) => fix[key]);
    return {
      name,
      lon: column('lon'),
      lat: column('lat'),
      ...Object.fromEntries(columns.map((key) => [key, column(key)])),
      gapBefore: Uint8Array.from(kept, ({ gap }, i) => (i === 0 ? 1 : gap)),
      issues: [],
      source: { format: 'gpx' },
      attributes: Object.fromEntries(attributes),
    };
  });

type Schema = { readonly [key: string]: unknown };

const text: Schema = { type: 'string' };
const flag: Schema = { type: 'boolean' };
const number: Schema = { type: 'number' };
const count: Schema = { type: 'integer', minimum: 0 };
const size: Schema = { type: 'number', minimum: 0 };
const share: Schema = { type: 'number', minimum: 0, maximum: 1 };
const side: Schema = { enum: ['left', 'right'] };
const position: Schema = { type: 'array', items: number, minItems: 2, maxItems: 3 };
const interval: Schema = { type: 'array', items: number, minItems: 2, maxItems: 2 };
const places: Schema = { type: 'array', items: { type: 'integer', minimum: 1 }, minItems: 2, maxItems: 2 };
const or = (schema: Schema): Schema => ({ anyOf: [schema, { type: 'null' }] });
const list = (items: Schema): Schema => ({ type: 'array', items });
/** An object that has exactly these keys; those in `optional` may be absent. */
const object = (properties: Record<string, Schema>, ...optional: string[]): Schema => ({
  type: 'object',
  properties,
  required: Object.keys(properties).filter((key) => !optional.includes(key)),
  additionalProperties: false,
});
const ref = (name: string): Schema => ({ $ref: `#/$defs/${name}` });

const line = object({ lon: list(number), lat: list(number), alongTrack: list(or(number)) });
const exclusion = object({ from: number, to: number, reason: text });
const outside = object({ fixes: count, length: size, seconds: or(number) });
const middle = object({ median: number, p95: number });

const route = object({
  name: or(text),
  length: size,
  sections: list(
    object({
      name: text,
      from: size,
      to: size,
      halfWidth: or(size),
      environment: or(text),
      lap: or(count),
      lateral95: or(size),
    }),
  ),
  marks: list(object({ name: text, alongTrack: size })),
  bins: list(size),
  line: ref('line'),
  corridor: list(object({ section: text, halfWidth: size, left: ref('line'), right: ref('line') })),
  decoy: or(ref('line')),
  centreline: or(ref('line')),
  decoyOffsets: or(list(or(number))),
  centrelineOffsets: or(list(or(number))),
  excluded: list(ref('exclusion')),
});

const recording = object({
  name: text,
  receiver: or(text),
  placement: or(text),
  run: or(text),
  included: flag,
  leftOut: or(text),
  fixes: count,
  states: object({ on: count, off: count, before: count, after: count, unplaced: count }),
  joined: or(size),
  left: or(size),
  duration: or(size),
  before: ref('outside'),
  after: ref('outside'),
  fixInterval: or(object({ median: size, p95: size, regularShare: share, kind: { enum: ['fixed', 'variable'] } })),
  fixSpacing: or(ref('middle')),
  gaps: list(
    object({
      from: or(size),
      to: or(size),
      seconds: or(number),
      metres: size,
      cause: { enum: ['break', 'pause', 'silence', 'jump'] },
    }),
  ),
  settled: or(object({ alongTrack: size, seconds: number })),
  offRoute: list(
    object({
      from: size,
      to: size,
      seconds: or(number),
      length: size,
      detour: number,
      peak: or(size),
      alsoAway: list(text),
    }),
  ),
  stops: list(object({ alongTrack: size, seconds: size, r50: size, r95: size, length: size })),
  laps: or(
    object({ planned: count, seen: count, laps: list(object({ lap: count, coverage: share, seconds: or(number) })) }),
  ),
  backwards: or(object({ metres: size, share })),
  lag: or(object({ median: number, spread: size })),
  confidence: or(object({ mean: share, min: share, unsureShare: share })),
  ambiguous: list(object({ from: size, to: size, reason: text })),
  data: object({
    duplicates: count,
    reversedTimes: count,
    jumps: count,
    missingTimes: count,
    issues: list(object({ reason: text, count, place: text, message: text })),
  }),
  recordedLength: or(size),
  offsets: list(or(number)),
  seconds: list(or(number)),
  pieces: list(ref('line')),
});

const row = object(
  {
    recording: text,
    section: or(text),
    from: size,
    to: size,
    coverage: share,
    covered: size,
    meanAbsolute: or(size),
    interval95: or(ref('interval')),
    blocks: or(count),
    median: or(size),
    p68: or(size),
    p90: or(size),
    p95: or(size),
    max: or(size),
    rms: or(size),
    bias: or(number),
    biasSide: or(side),
    biasInWords: or(text),
    medianOffset: or(number),
    sd: or(size),
    robustSd: or(size),
    area: or(size),
    signedArea: or(number),
    timeWeighted: or(object({ seconds: size, meanAbsolute: size, rms: size, bias: number })),
    insideCorridor: or(share),
    insideCorridorOfAll: or(share),
    correctSide: or(share),
    undecidedSide: or(share),
    recordedLength: or(size),
    referenceLength: size,
    lengthError: or(number),
    turnTerm: or(number),
    wiggleTerm: or(number),
    remainder: or(number),
    roughness: or(object({ sd10: size, crossings: size })),
    correlationLength: or(size),
    correlationTime: or(size),
    effectiveSamples: or(size),
    fixInterval: or(size),
    gaps: count,
    missing: number,
    offRoute: size,
    ambiguousShare: share,
    seconds: or(number),
    pace: or(object({ p5: number, median: number, p95: number })),
    mapAttraction: or(
      object({
        index: or(share),
        interval95: or(ref('interval')),
        verdict: { enum: ['attracted', 'not attracted', 'cannot tell'] },
        reason: or(text),
        nearerShare: share,
        sdAboutDecoy: size,
        sdAboutReference: size,
      }),
    ),
    resolution: or(size),
    verdictLimit: or(size),
    limits: list(text),
  },
  'correctSide',
  'undecidedSide',
);

const excursion = object({
  number: count,
  recording: text,
  section: or(text),
  from: size,
  to: size,
  metres: size,
  seconds: or(size),
  peak: number,
  side,
  peakAt: size,
  position,
  area: size,
  threshold: size,
  broken: flag,
});

const corner = object({
  number: count,
  section: or(text),
  from: size,
  to: size,
  alongTrack: size,
  position,
  turn: size,
  direction: side,
  passages: list(
    object({
      recording: text,
      coverage: share,
      inside: or(number),
      outside: or(number),
      mean: or(number),
      area: or(number),
      outcome: or({ enum: ['cut inside', 'overshot outside', 'kept'] }),
    }),
  ),
});

const pair = object(
  {
    first: text,
    second: text,
    section: or(text),
    difference: or(number),
    interval95: or(ref('interval')),
    verdict: { enum: ['closer', 'equivalent', 'undecided'] },
    closer: text,
    commonShare: share,
    floor: size,
    pValue: or(share),
    adjustedPValue: or(share),
    effectiveSamples: or(size),
    correlation: or(number),
    commonModeShare: or(share),
    apart: or(ref('middle')),
    between: or(size),
    lengthDifference: or(number),
    limits: list(text),
  },
  'closer',
);

const warning = object({
  reason: {
    enum: [
      'too-few-fixes',
      'off-the-route',
      'spans-days',
      'unreadable',
      'renamed',
      'no-times',
      'low-coverage',
      'ambiguous',
      'shared-detour',
      'unbalanced',
      'no-uncertainty',
      'no-sections',
      'one-run',
      'order-depends-on-reference',
      'common-shift',
      'excluded',
      'route',
    ],
  },
  recording: or(text),
  section: or(text),
  from: or(number),
  to: or(number),
  message: text,
});

/** JSON Schema (2020-12) of {@link Assessment}, version 1. */
export const assessmentSchema: { readonly [key: string]: unknown } = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'Assessment of recordings against a reference route, version 1',
  $defs: { line, interval, exclusion, outside, middle },
  ...object({
    schema: { const: 1 },
    route,
    recordings: list(recording),
    rows: list(row),
    excursions: list(excursion),
    corners: list(corner),
    distances: list(
      object({
        recording: text,
        mark: or(text),
        alongTrack: size,
        recorded: or(size),
        error: or(number),
        seconds: or(number),
        late: or(number),
      }),
    ),
    pairs: list(pair),
    order: list(
      object({
        section: or(text),
        run: or(text),
        entries: list(
          object({ recording: text, meanAbsolute: size, balancedMean: or(size), ties: text, place: places }),
        ),
        sentence: text,
      }),
    ),
    lapRepeatability: list(object({ recording: text, section: text, laps: count, sd: size })),
    totals: list(
      object({
        recording: text,
        recordedLength: size,
        referenceLength: size,
        lengthError: number,
        absoluteErrors: size,
        cancellation: or(share),
        termCancellation: or(share),
      }),
    ),
    referenceDoubt: or(
      object({
        shift: size,
        trials: list(object({ direction: text, orderChanges: count, signChanges: count, verdictChanges: count })),
        orderChanges: count,
        verdictChanges: count,
      }),
    ),
    commonShift: or(
      object({
        east: number,
        north: number,
        distance: size,
        azimuth: size,
        standardError: or(ref('interval')),
        recordings: count,
      }),
    ),
    method: object({
      library: text,
      version: text,
      binLength: size,
      weighting: text,
      interval: text,
      verdict: text,
      gapRule: text,
      lengthRule: text,
      options: object({
        leverArm: size,
        equivalence: size,
        defaultHalfWidth: size,
        exclude: list(ref('exclusion')),
      }),
      hash: text,
      inputs: list(object({ name: text, hash: text })),
      sentences: list(text),
      cautions: list(text),
    }),
    warnings: list(warning),
  }),
};

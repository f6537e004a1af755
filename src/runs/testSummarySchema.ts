import {
  count,
  interval,
  list,
  number,
  object,
  or,
  places,
  ref,
  share,
  size,
  text,
  verdict,
  verdictLimits,
} from '../assess';

/** One figure for each run, null for a run without. */
const byRun = list(or(number));

const run = object({
  name: text,
  recordings: list(object({ recording: text, receiver: text, placement: or(text) })),
});

const row = object({
  receiver: text,
  section: or(text),
  runs: count,
  meanAbsolute: or(size),
  interval95: or(ref('interval')),
  betweenRunSd: or(size),
  withinRunSd: or(size),
  bias: or(number),
  coverage: share,
  byRun,
});

const pair = object({
  first: text,
  second: text,
  section: or(text),
  runs: count,
  difference: or(number),
  interval95: or(ref('interval')),
  verdict,
  closer: or(text),
  floor: size,
  pValue: or(share),
  signFlipPValue: or(share),
  adjustedPValue: or(share),
  betweenRunSd: or(size),
  detectable: or(size),
  moreRuns: or(count),
  byRun,
  limits: verdictLimits,
});

/**
 * JSON Schema (2020-12) of a {@link TestSummary}, version 1; the package ships it as `datumline/schemas/testSummary.json`.
 *
 * @example
 * testSummarySchema.title // → 'What several runs over a reference route say together, version 1'
 */
export const testSummarySchema: { readonly [key: string]: unknown } = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'What several runs over a reference route say together, version 1',
  $defs: { interval },
  ...object({
    schema: { const: 1 },
    route: object({ name: or(text), length: size, sections: list(text) }),
    runs: list(run),
    receivers: list(text),
    rows: list(row),
    pairs: list(pair),
    order: list(
      object({
        section: or(text),
        entries: list(
          object({ receiver: text, meanAbsolute: size, balancedMean: or(size), ties: text, place: places }),
        ),
        sentence: text,
      }),
    ),
    flips: list(object({ section: text, first: text, second: text })),
    placementEffects: list(
      object({ first: text, second: text, receivers: count, difference: number, interval95: or(ref('interval')) }),
    ),
    design: list(object({ receiver: text, placement: or(text), runs: count })),
    method: object({ library: text, version: text, hash: text, sentences: list(text), cautions: list(text) }),
    warnings: list(
      object({
        reason: { enum: ['one-run', 'unbalanced', 'left-out', 'few-runs', 'missing-receiver'] },
        receiver: or(text),
        run: or(text),
        message: text,
      }),
    ),
  }),
};

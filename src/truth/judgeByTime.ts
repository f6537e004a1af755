import { version } from '../../package.json';
import {
  type BinRange,
  type CarriedRecording,
  cautions,
  type Entry,
  INTERVAL_RULE,
  LEAST_SAMPLES,
  RunScatter,
  testEntries,
  VERDICT_RULE,
  wideningOf,
} from '../assess';
import {
  checkChoice,
  checkNumber,
  checkOptions,
  checkRoute,
  hashNumbers,
  knownMedian,
  type OptionKeys,
  type Recording,
  type Route,
  routeHash,
} from '../model';
import { risingTimes } from '../snap';
import { studentQuantile } from '../statistics';
import { AVAILABILITY_RULE, availabilityOf, availableSeconds } from './availabilityOf';
import { measureFixes, placesOf, type TimedErrors } from './errorsByTime';
import { type FoundDelay, FURTHEST, findDelay } from './findDelay';
import { type SecondColumns, secondColumns } from './SecondColumns';
import type {
  Delay,
  TimedAssessment,
  TimedMethod,
  TimedRecording,
  TimedRow,
  TimedWarning,
  TimedWarningReason,
} from './TimedAssessment';
import { TimedFigures } from './TimedFigures';
import { PLACE_RULE, SPLIT_RULE, TrueMotion, type TruthOptions } from './TrueMotion';
import { PAIR_RULE, timedPairs } from './timedPairs';
import { SECTION_RULE, type TruthSeconds, timedSections } from './timedSections';

/** Options of {@link judgeByTime}. */
export interface JudgeByTimeOptions extends TruthOptions {
  /** The route whose sections the figures are told by. @defaultValue none: figures of the whole alone */
  readonly route?: Route;
  /** Two recordings are equivalent when the whole interval of their difference lies within this many metres of 0. @defaultValue 1 */
  readonly equivalence?: number;
  /** Metres that a receiver may be carried off the antenna of the truth: no smaller difference is claimed. @defaultValue 0.5 */
  readonly leverArm?: number;
  /** The receiver (or the recording, where none is stated) that alone the others are compared with. @defaultValue every two are compared */
  readonly baseline?: string;
}

const optionKeys: OptionKeys<JudgeByTimeOptions> = {
  maxTruthGap: true,
  truth95: true,
  route: true,
  equivalence: true,
  leverArm: true,
  baseline: true,
};

const DAY = 24 * 3600 * 1000;

/** Longer bins would hold too much of the way. */
const LONGEST_BIN = 30;

const DELAY_RULE = `Delay: the shift in time, up to ${FURTHEST} s either way, that makes the mean square of the errors along the way least (parabola through its minimum). A constant lead shows as a delay of lead ÷ speed as well. It is reported and taken out of no figure but those named so.`;
const SECONDS_RULE =
  'Each second of the truth counts once: in each the mean over the fixes in it. Percentiles are of sizes, linear between the values at (n − 1)p. CEP and CE95 are the radii that hold 50 % and 95 % of a normal error about 0 with the second moments found.';

/** A recording that is judged, by fix and by second. */
interface Judged {
  readonly entry: Entry;
  readonly errors: TimedErrors;
  readonly trusted: Uint8Array;
  readonly columns: SecondColumns;
  readonly usual: number;
  readonly available: Uint8Array;
  readonly firstFix: number;
  readonly delay: FoundDelay;
  /** By second, with the delay taken out; undefined where there is none. */
  readonly undelayed: SecondColumns | undefined;
}

/**
 * Judges recordings against one that knows the true place at every instant, of a survey-grade receiver carried along: how far
 * off each was at that second, ahead or behind, left or right, above or below; how often it was there at all; how late it
 * is; and whether two of them really differ. Lengths in metres.
 *
 * Unlike {@link assess}, which knows a line and no time, this sees errors along the way and delays. Where the truth states no
 * accuracy (`accuracy`, taken as 95 %) and no `truth95` is given, it counts as exact, and a warning says so.
 *
 * A recording that cannot be judged (no times, none in common with the truth, the truth itself) is named in `warnings` and
 * left out; the rest stands.
 *
 * @param truth - times rising, within one day
 * @param recordings - recordings, or `{ recording, receiver?, placement?, run? }`; only those of one run are compared
 *
 * @throws {InputError} a truth without times, with times that go back, or with fewer than 2 fixes; no recording at all,
 * something that is no recording, an option out of its range
 *
 * @remarks Figures by fix: {@link errorsByTime}. Every two recordings are a pair: time grows with the square of their number.
 * Six recordings of an hour at 1 Hz against a truth at 10 Hz: bench/truth.bench.ts.
 * @see ISO/IEC 18305:2016 for errors against a reference that moves along, EN 16803-1 for percentiles of horizontal, along- and
 * cross-track errors (neither read in full)
 *
 * @example
 * const at = (second, lon, lat) => [new Date(Date.UTC(2031, 0, 1) + 1000 * second).toISOString(), lon, lat].join()
 * const walk = (late, aside) => readCsv('time,lon,lat\n' + Array.from({ length: 300 }, (_, i) =>
 *   at(i + late, 5 + i / 20000, 60 - aside / 111415)).join('\n'), { name: 'walk' })[0]
 * const { rows } = judgeByTime(walk(0, 0), [walk(1, 4)], { truth95: 0.1 })
 * rows[0].across.mean // → 4.0…
 * rows[0].along.mean // → -2.79…
 * rows[0].delay.seconds // → 1.0…
 * rows[0].delay.removed.along.rms < 0.01 // → true
 */
export function judgeByTime(
  truth: Recording,
  recordings: readonly (Recording | CarriedRecording)[],
  options: JudgeByTimeOptions = {},
): TimedAssessment {
  checkOptions(options, optionKeys);
  const { maxTruthGap = 2, truth95, route, equivalence = 1, leverArm = 0.5, baseline } = options;
  checkNumber(equivalence, 'options.equivalence', { above: 0 });
  checkNumber(leverArm, 'options.leverArm', { min: 0 });
  if (route !== undefined) checkRoute(route, 'options.route');
  const motion = new TrueMotion(truth, { maxTruthGap, truth95 });
  const entries = testEntries(recordings);
  const receiverOf = ({ receiver, name }: Entry) => receiver ?? name;
  if (baseline !== undefined) checkChoice(baseline, 'options.baseline', [...new Set(entries.map(receiverOf))]);
  const seconds = timedSections(motion, route);
  const warnings: TimedWarning[] = [];
  const warn = (reason: TimedWarningReason, message: string, recording: string | null = null) =>
    warnings.push({ reason, recording, message });

  const judged: Judged[] = [];
  const described = entries.map((entry): TimedRecording => {
    const { name, renamedFrom } = entry;
    if (renamedFrom !== null) warn('renamed', `Another recording is also called “${renamedFrom}”.`, name);
    const refusal = refusalOf(entry, truth, motion);
    const one = refusal === undefined ? judge(motion, seconds, entry) : undefined;
    const leftOut = refusal ?? (one === undefined ? NOTHING_COMMON : null);
    if (leftOut !== null) warn(leftOut.reason, leftOut.message, name);
    if (one !== undefined) judged.push(one);
    return describe(entry, leftOut, one, seconds);
  });
  warnings.push(...judged.flatMap(clockWarnings));

  const stretches = [
    ...seconds.sections.map(({ name, range }) => ({ section: name, range })),
    { section: null, range: { first: 0, end: seconds.count } },
  ];
  const runs = [...new Set(judged.map(({ entry }) => entry.run))].map((run) =>
    judged.filter(({ entry }) => entry.run === run),
  );
  const rows = runs.flatMap((members) => rowsOf(members, seconds, stretches));
  const order = new Map(entries.map(({ name }, i) => [name, i]));
  rows.sort((a, b) => order.get(a.recording)! - order.get(b.recording)!);
  const pairs = runs.flatMap((members) => {
    const bin = Math.min(LONGEST_BIN, Math.max(1, ...members.map(({ usual }) => Math.ceil(usual - 0.05))));
    const count = Math.ceil(seconds.count / bin);
    const inBins = ({ first, end }: BinRange) => ({ first: Math.ceil(first / bin), end: Math.ceil(end / bin) });
    const compared = members.map(({ entry, errors, trusted, columns }) => ({
      name: entry.name,
      receiver: receiverOf(entry),
      columns:
        bin === 1
          ? columns
          : secondColumns(errors, entry.recording.time!, trusted, { begun: seconds.begun, count, length: bin }),
      missing: (section: string | null) =>
        1 - (rows.find((row) => row.recording === entry.name && row.section === section)?.availability ?? 0),
    }));
    if (baseline !== undefined && members.length > 1 && !compared.some(({ receiver }) => receiver === baseline)) {
      warn('no-baseline', `A run has no recording of “${baseline}”: nothing is compared in it.`);
    }
    const doubt = new Float64Array(count);
    seconds.doubt.forEach((value, k) => {
      if (value > doubt[Math.floor(k / bin)]) doubt[Math.floor(k / bin)] = value;
    });
    return timedPairs(
      compared,
      stretches.map(({ section, range }) => ({ section, range: inBins(range) })),
      seconds.parts.map(inBins).filter(({ first, end }) => end > first),
      doubt,
      { equivalence, leverArm, baseline },
    );
  });
  const doubt95 = doubtIn(seconds, { first: 0, end: seconds.count });
  warnings.push(...truthWarnings(motion, seconds, doubt95, rows));
  if (judged.length > 1 && runs.length === 1) {
    warn('one-run', 'One run ranks nothing: intervals and verdicts hold for this run only.');
  }
  return {
    schema: 1,
    truth: {
      name: truth.name,
      duration: (motion.span[1] - motion.span[0]) / 1000,
      fixes: motion.time.length,
      seconds: seconds.known.reduce((sum, known) => sum + known, 0),
      doubt95,
      known: Array.from(seconds.known),
      alongTrack: rounded(seconds.alongTrack),
      sections: seconds.sections.map(({ name, range }) => ({ name, from: range.first, to: range.end })),
    },
    recordings: described,
    rows,
    pairs,
    method: methodOf(truth, route, entries, {
      maxTruthGap,
      truth95: truth95 ?? null,
      leverArm,
      equivalence,
      baseline: baseline ?? null,
    }),
    warnings,
  };
}

function refusalOf(
  { recording }: Entry,
  truth: Recording,
  motion: TrueMotion,
): NonNullable<TimedRecording['leftOut']> | undefined {
  const { lon, lat, time } = recording;
  if (lon.every((_, i) => !Number.isFinite(lon[i] + lat[i])))
    return { reason: 'too-few-fixes', message: 'It has no usable fix.' };
  if (!time?.some(Number.isFinite))
    return { reason: 'no-times', message: 'It has no times: where it was at what second is not known.' };
  if (lon.length === truth.lon.length && lon.every((x, i) => x === truth.lon[i] && lat[i] === truth.lat[i]))
    return {
      reason: 'is-the-truth',
      message: 'Its positions are those of the truth itself: it cannot be judged by it.',
    };
  const [first, last] = extent(time);
  const [from, to] = motion.span;
  // of what is late by a little the end may still be
  if (first - 1000 * FURTHEST > to || last + 1000 * FURTHEST < from) {
    const apart =
      first > to ? `${span(first - to)} after the truth ends` : `${span(from - last)} before the truth begins`;
    const message = `It ${first > to ? 'begins' : 'ends'} ${apart}: another day, or a clock in another zone.`;
    return { reason: 'no-overlap', message };
  }
  return undefined;
}

/** Milliseconds in words. */
function span(time: number): string {
  const hours = time / 3_600_000;
  if (hours >= 48) return `${(hours / 24).toFixed(1)} days`;
  return hours >= 1 ? `${hours.toFixed(1)} hours` : `${(hours * 60).toFixed(1)} minutes`;
}

const NOTHING_COMMON = {
  reason: 'no-overlap',
  message: 'It has no fix at an instant at which the truth knows the place.',
} as const;

/** A recording's errors, by fix and by second; undefined where no fix has one. */
function judge(motion: TrueMotion, seconds: TruthSeconds, entry: Entry): Judged | undefined {
  const { recording } = entry;
  const time = recording.time!;
  const places = placesOf(recording);
  const mistrusted = risingTimes(time);
  const trusted = Uint8Array.from(time, (value, i) =>
    Number.isFinite(value + places[3 * i]) && mistrusted?.[i] !== 1 ? 1 : 0,
  );
  const errors = measureFixes(motion, recording, places, 0);
  const columns = secondColumns(errors, time, trusted, seconds);
  if (columns.horizontal.every(Number.isNaN)) return undefined;
  const times = Array.from(time).filter((_, i) => trusted[i] === 1);
  const interval = knownMedian(times.slice(1).map((value, i) => (value - times[i]) / 1000));
  const usual = Number.isNaN(interval) ? 1 : interval;
  const delay = findDelay(motion, recording, places, trusted);
  const undelayed =
    delay && 'seconds' in delay
      ? secondColumns(
          measureFixes(motion, recording, places, delay.seconds),
          time.map((value) => value - 1000 * delay.seconds),
          trusted,
          seconds,
        )
      : undefined;
  return {
    entry,
    errors,
    trusted,
    columns,
    usual,
    available: availableSeconds(times, usual, seconds),
    firstFix: times[0],
    delay,
    undelayed,
  };
}

function rowsOf(
  members: readonly Judged[],
  seconds: TruthSeconds,
  stretches: readonly { readonly section: string | null; readonly range: BinRange }[],
): TimedRow[] {
  const figures = new TimedFigures(
    members.map(({ columns }) => columns),
    seconds.parts,
  );
  const late = members.filter(({ undelayed }) => undelayed !== undefined);
  const undelayed =
    late.length > 0
      ? new TimedFigures(
          late.map(({ undelayed }) => undelayed!),
          seconds.parts,
        )
      : undefined;
  const pulls = late.map(({ undelayed }) => undelayed!.along.map((along, k) => along * undelayed!.speed[k]));
  const pull =
    late.length > 0
      ? new RunScatter(new Float64Array(seconds.count).fill(1), pulls, seconds.parts, 'plain')
      : undefined;
  return members.flatMap((member, i) => {
    const { entry, columns, available } = member;
    const k = late.indexOf(member);
    const delayIn = (range: BinRange, doubt: number): Delay | null => {
      const found = member.delay;
      if (!found || !('seconds' in found)) return null;
      const { speed, along } = member.undelayed!;
      let squares = 0;
      let moving = 0;
      for (let s = range.first; s < range.end; s++) {
        if (Number.isNaN(along[s])) continue;
        squares += speed[s] ** 2;
        moving++;
      }
      const chance = pull!.mean(k, range);
      if (moving === 0 || chance === undefined) return null;
      // what is left of the error along the way, by the speed: one step of Newton from the whole's delay to the stretch's
      const seconds = found.seconds - (chance.mean * moving) / squares;
      const half =
        (studentQuantile(0.95, chance.degrees) *
          wideningOf.offset(chance.samples) *
          Math.sqrt(chance.variance) *
          moving) /
        squares;
      return {
        seconds,
        interval95: chance.samples >= LEAST_SAMPLES ? [seconds - half, seconds + half] : null,
        degrees: chance.degrees,
        removed: { seconds: found.seconds, ...undelayed!.figures(k, range, doubt) },
      };
    };
    return stretches.map(({ section, range }): TimedRow => {
      const doubt95 = doubtIn(seconds, range);
      const count = (column: ArrayLike<number>) => {
        let sum = 0;
        for (let s = range.first; s < range.end; s++) if (column[s] >= 0 || column[s] < 0) sum++;
        return sum;
      };
      const told = figures.figures(i, range, doubt95 ?? 0);
      let known = 0;
      for (let s = range.first; s < range.end; s++) known += seconds.known[s];
      return {
        recording: entry.name,
        section,
        seconds: known,
        judged: count(columns.horizontal),
        moving: count(columns.along),
        ...told,
        doubt95,
        resolution: told.horizontal && doubt95 ? told.horizontal.mean / doubt95 : null,
        ...availabilityOf(available, seconds, range),
        delay: delayIn(range, doubt95 ?? 0),
        effectiveSamples: figures.samples(i, range, count(columns.horizontal)),
      };
    });
  });
}

/** The largest uncertainty stated in a stretch; null where any of it is unstated. */
function doubtIn({ known, doubt }: TruthSeconds, { first, end }: BinRange): number | null {
  let most = 0;
  let some = false;
  for (let k = first; k < end; k++) {
    if (known[k] === 0) continue;
    if (Number.isNaN(doubt[k])) return null;
    some = true;
    most = Math.max(most, doubt[k]);
  }
  return some ? most : null;
}

function describe(
  { name, receiver, placement, run, recording }: Entry,
  leftOut: TimedRecording['leftOut'],
  one: Judged | undefined,
  { begun, count }: TruthSeconds,
): TimedRecording {
  const column = (values: Float64Array | undefined) => rounded(values ?? new Float64Array(count).fill(Number.NaN));
  return {
    name,
    receiver,
    placement,
    run,
    leftOut,
    fixes: recording.lon.length,
    judged: one ? one.errors.horizontal.filter((value, i) => one.trusted[i] === 1 && !Number.isNaN(value)).length : 0,
    usualInterval: one && recording.lon.length > 1 ? one.usual : null,
    timeToFirstFix: one ? Math.max(0, (one.firstFix - begun) / 1000) : null,
    horizontal: column(one?.columns.horizontal),
    along: column(one?.columns.along),
    across: column(one?.columns.across),
  };
}

function clockWarnings({ entry, trusted, delay }: Judged): TimedWarning[] {
  const { name, recording } = entry;
  const warnings: TimedWarning[] = [];
  const mistrusted = trusted.reduce(
    (sum, one, i) => sum + (one === 0 && Number.isFinite(recording.time![i]) ? 1 : 0),
    0,
  );
  if (mistrusted > 0) {
    const message = `Left out of its ${trusted.length} fixes: ${mistrusted} with the time of another, a time earlier than those before, or no place.`;
    warnings.push({ reason: 'untrusted-clock', recording: name, message });
  }
  if (delay && 'beyond' in delay) {
    const message = `It fits the truth best ${FURTHEST} s off or more: its clock, or a leap second, may be wrong. Its figures are by its own clock.`;
    warnings.push({ reason: 'far-clock', recording: name, message });
  } else if (delay && Math.abs(delay.seconds) >= 1) {
    const message = `It is ${Math.abs(delay.seconds).toFixed(1)} s ${delay.seconds > 0 ? 'late' : 'early'}: its errors along the way include what was covered in that time. Figures with the delay taken out are given apart.`;
    warnings.push({ reason: 'late', recording: name, message });
  }
  return warnings;
}

function truthWarnings(
  motion: TrueMotion,
  seconds: TruthSeconds,
  doubt95: number | null,
  rows: readonly TimedRow[],
): TimedWarning[] {
  const warnings: TimedWarning[] = [];
  const warn = (reason: TimedWarningReason, message: string, recording: string | null = null) =>
    warnings.push({ reason, recording, message });
  if (motion.span[0] >= 0 && motion.span[0] < DAY) {
    warn(
      'undated',
      'The truth’s times count from 1970-01-01: its file states no date, or times from its own first fix. Unless the recordings’ count from the same instant, delays and errors along the way mean nothing.',
    );
  }
  const unknown = seconds.known.reduce((sum, known) => sum + 1 - known, 0);
  if (unknown > 0)
    warn('truth-gaps', `The truth is broken for ${unknown} of its ${seconds.count} s: nothing is judged there.`);
  if (motion.unusable + motion.repeated > 0) {
    warn(
      'truth-times',
      `Left out of the truth’s fixes: ${motion.unusable} without time or place, ${motion.repeated} with the time of the one before.`,
    );
  }
  if (seconds.offRoute !== undefined) warn('truth-off-route', seconds.offRoute);
  if (doubt95 === null) {
    warn(
      'no-uncertainty',
      'The truth does not state its accuracy everywhere: figures and verdicts hold only if it is exact.',
    );
  }
  for (const { recording, section, resolution } of rows) {
    if (section !== null || resolution === null || resolution >= 2) continue;
    warn(
      'coarse-truth',
      'Its mean error is less than twice the truth’s own uncertainty: the truth cannot resolve it.',
      recording,
    );
  }
  return warnings;
}

function methodOf(
  truth: Recording,
  route: Route | undefined,
  entries: readonly Entry[],
  options: TimedMethod['options'],
): TimedMethod {
  const hashOf = ({ lon, lat, time, height, accuracy, gapBefore }: Recording, words: unknown) =>
    hashNumbers([lon, lat, time ?? [], height ?? [], accuracy ?? [], gapBefore, JSON.stringify(words)]);
  const inputs = [
    { name: 'truth', hash: hashOf(truth, []) },
    ...(route ? [{ name: 'route', hash: routeHash(route) }] : []),
    ...entries.map(({ name, recording, receiver, placement, run }) => ({
      name,
      hash: hashOf(recording, [receiver, placement, run]),
    })),
  ];
  return {
    library: 'datumline',
    version,
    options,
    hash: hashNumbers([...inputs.flatMap(({ name, hash }) => [name, hash]), JSON.stringify(options)]),
    inputs,
    sentences: [
      PLACE_RULE,
      SPLIT_RULE,
      SECONDS_RULE,
      ...(route ? [SECTION_RULE] : []),
      AVAILABILITY_RULE,
      DELAY_RULE,
      INTERVAL_RULE,
      PAIR_RULE,
      VERDICT_RULE,
      `The floor is ${options.leverArm} m for the distance between receiver and the truth’s antenna, or what moving the truth by its stated uncertainty in eight directions changes, whichever is more; the margin of equivalence is ${options.equivalence} m.`,
      ...(options.baseline === null
        ? []
        : [`Only comparisons with “${options.baseline}” were made, and corrected for.`]),
    ],
    cautions,
  };
}

function extent(time: ArrayLike<number>): [first: number, last: number] {
  let [first, last] = [Infinity, -Infinity];
  for (let i = 0; i < time.length; i++) {
    if (time[i] < first) first = time[i];
    if (time[i] > last) last = time[i];
  }
  return [first, last];
}

/** To the millimetre, null for NaN. */
function rounded(column: Float64Array): (number | null)[] {
  return Array.from(column, (value) => (Number.isNaN(value) ? null : Math.round(value * 1000) / 1000 + 0));
}

import { isConfounded, MORE_AWAY } from '../assess';
import { checkArray, checkChoice, checkOptions, finish, InputError, type OptionKeys } from '../model';
import { checkTimedAssessment, type TimedAssessment } from '../truth';
import { summaryPairs } from './summaryPairs';
import { namedRuns, placements } from './summaryRuns';
import type { SummaryWarning, TimedSummary } from './TestSummary';
import { timedPairsOver } from './timedPairsOver';
import { timedSummaryRow } from './timedSummaryRow';

/** Options of {@link combineByTime}. */
export interface CombineByTimeOptions {
  /** The receiver that alone the others are compared with. @defaultValue as the first had it */
  readonly baseline?: string;
}

const optionKeys: OptionKeys<CombineByTimeOptions> = { baseline: true };

const RUNS_RULE = `By the clock over runs: each figure is the mean over the runs, each counting once, a maximum the largest. Intervals from the spread between the runs, never less than what each run’s own interval foretells. Two receivers are compared by their mean horizontal errors. No verdict where the one that would gain by it was without a fix for ${100 * MORE_AWAY} % of the time more than the other, nor where both lie within the truth’s own uncertainty on average, nor on two never swapped between the places they are worn at.`;

/**
 * What several runs judged by the clock say together about the receivers, in metres and seconds: the run is the unit of
 * replication.
 *
 * Each document holds one run, or several told apart by the `run` of its recordings. With one run there is no interval and
 * every verdict stays undecided. `combine` puts it beside what the same runs say of the route.
 *
 * @throws {InputError} nothing, or something that `judgeByTime` did not return; a baseline that is no receiver
 *
 * @example
 * const at = (second, lon, lat) => [new Date(Date.UTC(2031, 0, 1) + 1000 * second).toISOString(), lon, lat].join()
 * const walk = (name, aside) => readCsv('time,lon,lat\n' + Array.from({ length: 300 }, (_, i) =>
 *   at(i, 5 + i / 20000, 60 - aside(i) / 111415)).join('\n'), { name })[0]
 * const run = (k) => judgeByTime(walk('truth', () => 0), [
 *   walk('A', (i) => 2 + Math.sin(i + k)), walk('B', (i) => 5 + Math.sin(1.3 * i + k))], { truth95: 0.1 })
 * const { rows, pairs } = combineByTime([run(0), run(1), run(2)])
 * rows[0].across.mean // → 2.0…
 * rows[0].across.byRun.length // → 3
 * pairs[0].verdict // → 'closer'
 * pairs[0].closer // → 'A'
 */
export function combineByTime(timed: readonly TimedAssessment[], options: CombineByTimeOptions = {}): TimedSummary {
  checkTimed(timed, 'timed');
  checkOptions(options, optionKeys);
  const warnings: SummaryWarning[] = [];
  const warn = (reason: SummaryWarning['reason'], message: string, about: Partial<SummaryWarning> = {}) =>
    warnings.push({ receiver: null, run: null, ...about, reason, message });
  const runs = namedRuns(
    timed.map((one) => ({ recordings: one.recordings, about: { timed: one } })),
    warn,
  );
  const receivers = [...new Set(runs.flatMap(({ members }) => members.map(({ receiver }) => receiver)))];
  const baseline = options.baseline ?? timed[0].method.options.baseline;
  if (options.baseline !== undefined) checkChoice(options.baseline, 'options.baseline', receivers);
  const sections = [...new Set(timed.flatMap(({ truth }) => truth.sections.map(({ name }) => name)))];
  const stretches = [...sections, null];
  if (runs.length === 1) warn('one-run', 'One run ranks nothing: every verdict stays undecided.');
  else if (runs.length === 2) warn('few-runs', 'Fewer than three runs can show only very large differences.');
  for (const { name, byReceiver } of runs) {
    for (const receiver of receivers) {
      if (byReceiver.has(receiver)) continue;
      warn('missing-receiver', `“${receiver}” was not judged in run “${name}”.`, { receiver, run: name });
    }
  }
  receivers.forEach((first, i) => {
    for (const second of receivers.slice(i + 1)) {
      if (!isConfounded(placements(runs, first, second))) continue;
      const message = `“${first}” and “${second}” were never swapped between places: no difference between them is claimed.`;
      warn('unbalanced', message);
    }
  });
  return {
    runs: runs.map(({ name, members }) => ({
      name,
      recordings: members.map(({ recording, receiver, placement }) => ({ recording, receiver, placement })),
    })),
    receivers,
    baseline,
    sections,
    rows: stretches.flatMap((section) =>
      receivers.map((receiver) => timedSummaryRow(runs, receivers, receiver, section)),
    ),
    pairs: stretches.flatMap((section) =>
      finish(summaryPairs(runs, receivers, section, baseline, timedPairsOver(timed, section))),
    ),
    sentences: [RUNS_RULE],
    warnings,
  };
}

/** Refuses anything but what `judgeByTime` returned, at least one. */
export function checkTimed(timed: readonly TimedAssessment[], argument: string): void {
  checkArray(timed, argument);
  if (timed.length === 0) {
    throw new InputError({ reason: 'too-few', argument, rule: 'at least 1 timed assessment', value: timed });
  }
  // holes too
  for (const [i, one] of timed.entries()) checkTimedAssessment(one, `${argument}[${i}]`);
}

import { group } from 'd3-array';
import { version } from '../../package.json';
import { type Assessment, balancedMean, isConfounded } from '../assess';
import { checkChoice, checkOptions, hashNumbers, type Steps } from '../model';
import type { TimedAssessment } from '../truth';
import type { AssessedFigures, FiguresMethod } from './AssessedFigures';
import { ALLOWED_RULE, allowedPairs } from './allowedPairs';
import { type CombineOptions, combineKeys } from './CombineOptions';
import { clockWarnings } from './clockWarnings';
import { checkTimed, combineByTime } from './combineByTime';
import { placementEffects } from './placementEffects';
import { routePairs } from './routePairs';
import { runsDiffer } from './runsDiffer';
import { strictestMargin } from './strictestMargin';
import { summaryOrder } from './summaryOrder';
import { summaryPairs } from './summaryPairs';
import { summaryRows } from './summaryRows';
import { checkOneRoute, figuresOf, placements, runsOf } from './summaryRuns';
import type { TakenFigures } from './TakenFigures';
import type { SummaryPair, SummaryRow, SummaryRun, SummaryWarning, TestSummary } from './TestSummary';

const RUNS_RULE =
  'Intervals and verdicts over runs: the variance that each run foretells from within, times by how much the spread between the runs exceeds it, never less than foretold; Student’s t with 2R − 1 degrees of freedom over R runs where others in the section tell of the conditions too, R where none does; corrected over the pairs of a section as within a run. The exact sign-flip test stands beside it.';

/** What `combine` does, in steps: assessments are taken in, then each section is looked at. */
export function* combineSteps(
  assessments: Iterable<Assessment | AssessedFigures>,
  options: CombineOptions,
): Steps<TestSummary> {
  return yield* combineFigures(yield* figuresOf(assessments), options);
}

/** The same of figures that were checked. */
export function* combineFigures(figures: readonly TakenFigures[], options: CombineOptions): Steps<TestSummary> {
  checkOneRoute(figures);
  checkOptions(options, combineKeys);
  const byTime = options.byTime ?? null;
  if (byTime !== null) checkTimed(byTime, 'options.byTime');
  const { route } = figures[0];
  const warnings: SummaryWarning[] = [];
  const warn = (reason: SummaryWarning['reason'], message: string, about: Partial<SummaryWarning> = {}) =>
    warnings.push({ receiver: null, run: null, ...about, reason, message });
  const versions = [...new Set(figures.map(({ method }) => method.version))].sort();
  if (versions.some((one) => one !== version)) {
    warn('other-version', `Assessed by version ${versions.join(' and ')}, combined by ${version}.`);
  }
  const runs = yield* runsOf(figures, warn);
  const receivers = [...new Set(runs.flatMap(({ members }) => members.map(({ receiver }) => receiver)))];
  const baseline = options.baseline ?? figures[0].method.options.baseline ?? null;
  if (options.baseline !== undefined) checkChoice(options.baseline, 'options.baseline', receivers);
  const sections = [...route.sections.map(({ name }) => name), null];

  const equivalence = strictestMargin(figures);
  const rows: SummaryRow[] = [];
  const pairs: SummaryPair[] = [];
  for (const [i, section] of sections.entries()) {
    rows.push(...summaryRows(runs, receivers, section));
    yield;
    const told = yield* summaryPairs(runs, receivers, section, baseline, routePairs(figures, section));
    const allowed = allowedPairs(runs, receivers, told, section);
    pairs.push(...told.map((pair, k) => ({ ...pair, insideAllowed: allowed[k] })));
    yield { done: i + 1, of: sections.length, what: 'sections' };
  }
  const rowsIn = group(rows, ({ section }) => section);
  const pairsIn = group(pairs, ({ section }) => section);
  const order = sections.map((section) =>
    summaryOrder(section, rowsIn.get(section) ?? [], pairsIn.get(section) ?? [], runs.length, equivalence, (receiver) =>
      balancedMean(rows.filter((row) => row.receiver === receiver)),
    ),
  );
  yield;
  for (const { receiver, message } of runsDiffer(runs, receivers, sections)) warn('runs-differ', message, { receiver });
  if (runs.length === 1) warn('one-run', 'One run ranks nothing: every verdict stays undecided.');
  else if (runs.length < 3) warn('few-runs', 'Fewer than three runs can show only very large differences.');
  for (const { name, byReceiver } of runs) {
    for (const receiver of receivers) {
      if (byReceiver.has(receiver)) continue;
      warn('missing-receiver', `“${receiver}” has no recording in run “${name}” that could be judged.`, {
        receiver,
        run: name,
      });
    }
  }
  for (const [i, first] of receivers.entries()) {
    for (const second of receivers.slice(i + 1)) {
      if (!isConfounded(placements(runs, first, second))) continue;
      warn(
        'unbalanced',
        `“${first}” and “${second}” were never swapped between places: no difference between them is claimed.`,
      );
    }
  }

  yield;
  warnings.push(...clockWarnings(runs));
  yield;
  const whole = new Map(rowsIn.get(null)?.map(({ receiver, meanAbsolute }) => [receiver, meanAbsolute]));
  return {
    schema: 1,
    route: {
      name: route.name,
      length: route.length,
      sections: route.sections.map(({ name }) => name),
      hash: figures[0].method.inputs[0].hash,
    },
    runs: runs.map(
      ({ name, members }): SummaryRun => ({
        name,
        recordings: members.map(({ recording, receiver, placement }) => ({ recording, receiver, placement })),
      }),
    ),
    receivers,
    baseline,
    rows,
    pairs,
    order,
    flips: pairs.flatMap(({ section, first, second, difference }) => {
      const [a, b] = [whole.get(first), whole.get(second)];
      if (section === null || difference === null || a == null || b == null) return [];
      return Math.sign(difference) * Math.sign(a - b) < 0 ? [{ section, first, second }] : [];
    }),
    placementEffects: placementEffects(runs),
    design: receivers.flatMap((receiver) => {
      const worn = runs.flatMap(({ members }) => members.filter((member) => member.receiver === receiver));
      return [...new Set(worn.map(({ placement }) => placement))].map((placement) => ({
        receiver,
        placement,
        runs: worn.filter((member) => member.placement === placement).length,
      }));
    }),
    method: describe(figures, runs.length),
    byTime: byTime && combineByTime(byTime, baseline !== null && timedHas(byTime, baseline) ? { baseline } : {}),
    warnings,
  };
}

function timedHas(timed: readonly TimedAssessment[], receiver: string): boolean {
  return timed.some(({ recordings }) =>
    recordings.some((one) => one.leftOut === null && (one.receiver ?? one.name) === receiver),
  );
}

function describe(figures: readonly TakenFigures[], runs: number): TestSummary['method'] {
  const { library, cautions }: FiguresMethod = figures[0].method;
  return {
    library,
    version,
    hash: hashNumbers(figures.map(({ method }) => method.hash)),
    sentences: [
      `The run is the unit: ${runs} ${runs === 1 ? 'run' : 'runs'}, each counting once.`,
      RUNS_RULE,
      ...(figures.some(({ rows }) => rows.some(({ insideAllowed }) => insideAllowed !== null)) ? [ALLOWED_RULE] : []),
      'Of lever arms the longest, of margins of equivalence the narrowest counts. Two receivers never swapped between the places they are worn at stay undecided.',
      'Place effects: least squares with a term for each receiver, each run and the place.',
      'Detectable: the true difference that as many runs would find four times in five, the other pairs being as they are.',
      // each once: what was left out differs from run to run
      ...new Set(figures.flatMap(({ method }) => method.sentences)),
    ],
    cautions,
  };
}

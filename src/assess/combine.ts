import { InputError } from '../errors';
import type { Assessment, AssessmentMethod, Interval } from './Assessment';
import { detectableDifference, runsNeeded } from './detectableDifference';
import { hashNumbers } from './hashNumbers';
import { holm } from './holm';
import { isConfounded } from './isConfounded';
import { overRuns } from './overRuns';
import { signFlip } from './signFlip';
import { studentQuantile } from './studentT';
import type {
  PlacementEffect,
  SummaryOrder,
  SummaryPair,
  SummaryRow,
  SummaryRun,
  SummaryWarning,
  TestSummary,
} from './TestSummary';
import { tieGroups } from './tieGroups';

/** A recording that counts, and where its figures stand. */
interface Member {
  readonly assessment: Assessment;
  readonly recording: string;
  readonly receiver: string;
  readonly placement: string | null;
}

interface Run {
  readonly name: string;
  readonly members: readonly Member[];
}

/**
 * What several runs over one route say together about the receivers: the run is the unit of replication, so that an hour
 * of fixes counts as one observation, not as 3600.
 *
 * Each assessment holds one run, or several told apart by the `run` of its recordings. Verdicts rest on a paired t test
 * over runs; the exact sign-flip test stands beside it. With one run everything is undecided.
 *
 * @throws {InputError} no assessment, something that is none, or assessments of different routes
 *
 * @see ISO 5725 for trueness and for precision within and between runs
 *
 * @example
 * const quay = routeFromLine([[2.1, 61.4], [2.11, 61.4]])
 * const north = (metres) => [2.1, 2.102, 2.104, 2.106, 2.108, 2.11].map((lon) => direct([lon, 61.4], 0, metres).position)
 * const recorded = (name, metres) => readGeoJson(JSON.stringify({ type: 'LineString', coordinates: north(metres) }), { name })
 * const day = (a, b) => assess(quay, [...recorded('A', a), ...recorded('B', b)])
 * combine([day(2, 6), day(3, 6), day(2, 7)]).pairs[0] // → { runs: 3, difference: -4.0…, verdict: 'closer', closer: 'A', signFlipPValue: 0.25 }
 * combine([day(2, 6)]).pairs[0].verdict // → 'undecided'
 * combine([]) // throws too-few: assessments must be at least 1 assessment
 */
export function combine(assessments: readonly Assessment[]): TestSummary {
  checkAssessments(assessments);
  const { route } = assessments[0];
  const warnings: SummaryWarning[] = [];
  const warn = (reason: SummaryWarning['reason'], message: string, about: Partial<SummaryWarning> = {}) =>
    warnings.push({ receiver: null, run: null, ...about, reason, message });
  const runs = runsOf(assessments, warn);
  const receivers = [...new Set(runs.flatMap(({ members }) => members.map(({ receiver }) => receiver)))];
  const sections = [...route.sections.map(({ name }) => name), null];

  const rows = sections.flatMap((section) => receivers.map((receiver) => summaryRow(runs, receiver, section)));
  const pairs = sections.flatMap((section) => summaryPairs(assessments, runs, receivers, section));
  const order = sections.map((section) =>
    summaryOrder(
      section,
      rows.filter((row) => row.section === section),
      pairs.filter((pair) => pair.section === section),
      runs.length,
    ),
  );
  if (runs.length === 1) warn('one-run', 'One run ranks nothing: every verdict stays undecided.');
  else if (runs.length < 3) warn('few-runs', 'Fewer than three runs can show only very large differences.');
  for (const { name, members } of runs) {
    for (const receiver of receivers) {
      if (members.some((member) => member.receiver === receiver)) continue;
      warn('missing-receiver', `“${receiver}” has no recording in run “${name}”.`, { receiver, run: name });
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

  const whole = (receiver: string) =>
    rows.find((row) => row.receiver === receiver && row.section === null)?.meanAbsolute;
  return {
    schema: 1,
    route: { name: route.name, length: route.length, sections: route.sections.map(({ name }) => name) },
    runs: runs.map(
      ({ name, members }): SummaryRun => ({
        name,
        recordings: members.map(({ recording, receiver, placement }) => ({ recording, receiver, placement })),
      }),
    ),
    receivers,
    rows,
    pairs,
    order,
    flips: pairs.flatMap(({ section, first, second, difference }) => {
      const [a, b] = [whole(first), whole(second)];
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
    method: describe(assessments, runs.length),
    warnings,
  };
}

function checkAssessments(assessments: readonly Assessment[]): void {
  if (!Array.isArray(assessments)) {
    throw new InputError({ reason: 'wrong-type', argument: 'assessments', rule: 'an array', value: assessments });
  }
  if (assessments.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'assessments',
      rule: 'at least 1 assessment',
      value: assessments,
    });
  }
  assessments.forEach((assessment: Assessment, i) => {
    const argument = `assessments[${i}]`;
    if (typeof assessment !== 'object' || assessment === null || assessment.schema !== 1) {
      throw new InputError({ reason: 'wrong-type', argument, rule: 'what assess returned', value: assessment });
    }
    const [ours, first] = [assessment.method.inputs[0].hash, assessments[0].method.inputs[0].hash];
    if (ours !== first) {
      throw new InputError({
        reason: 'misplaced',
        argument: `${argument}.route`,
        rule: 'the route of the first assessment',
        value: assessment.route.name,
        hint: 'Runs over different routes have no stretch in common',
      });
    }
  });
}

function runsOf(
  assessments: readonly Assessment[],
  warn: (reason: SummaryWarning['reason'], message: string, about: Partial<SummaryWarning>) => void,
): Run[] {
  const names = new Set<string>();
  return assessments.flatMap((assessment) => {
    const stated = [...new Set(assessment.recordings.map(({ run }) => run))];
    return stated.flatMap((run): Run[] => {
      let name = run ?? `run ${names.size + 1}`;
      // Two assessments that call their run alike are still two runs: nobody assesses one run in two halves.
      for (let again = 2; names.has(name); again++) name = `${run ?? 'run'} (${again})`;
      names.add(name);
      const members: Member[] = [];
      for (const recording of assessment.recordings) {
        if (recording.run !== run) continue;
        const receiver = recording.receiver ?? recording.name;
        const again = members.some((member) => member.receiver === receiver);
        if (!recording.included || again) {
          const why = again ? 'the run has another recording of this receiver' : recording.leftOut;
          warn('left-out', `“${recording.name}” was left out: ${why}`, { receiver, run: name });
          continue;
        }
        members.push({ assessment, recording: recording.name, receiver, placement: recording.placement });
      }
      return members.length > 0 ? [{ name, members }] : [];
    });
  });
}

const known = (values: readonly (number | null)[]) => values.filter((value): value is number => value !== null);

function summaryRow(runs: readonly Run[], receiver: string, section: string | null): SummaryRow {
  const found = runs.map(({ members }) => {
    const member = members.find((one) => one.receiver === receiver);
    return member?.assessment.rows.find((row) => row.recording === member.recording && row.section === section);
  });
  const byRun = found.map((row) => row?.meanAbsolute ?? null);
  const spread = overRuns(known(byRun));
  const within = found.flatMap((row) =>
    row?.interval95 && row.blocks ? [standardErrorOf(row.interval95, row.blocks)] : [],
  );
  const biases = known(found.map((row) => row?.bias ?? null));
  const coverages = found.flatMap((row) => (row ? [row.coverage] : []));
  const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value / values.length, 0);
  return {
    receiver,
    section,
    runs: known(byRun).length,
    meanAbsolute: spread?.mean ?? null,
    interval95: spread?.interval95 ? [Math.max(0, spread.interval95[0]), spread.interval95[1]] : null,
    betweenRunSd: spread?.sd ?? null,
    withinRunSd: within.length > 0 ? Math.sqrt(meanOf(within.map((error) => error * error))) : null,
    bias: biases.length > 0 ? meanOf(biases) : null,
    coverage: coverages.length > 0 ? meanOf(coverages) : 0,
    byRun,
  };
}

/** From the upper half: the lower one may have been cut off at 0. */
function standardErrorOf([low, high]: Interval, blocks: number): number {
  return (high - low) / 2 / studentQuantile(0.95, blocks - 1);
}

function summaryPairs(
  assessments: readonly Assessment[],
  runs: readonly Run[],
  receivers: readonly string[],
  section: string | null,
): SummaryPair[] {
  const equivalence = Math.min(...assessments.map(({ method }) => method.options.equivalence));
  const drafts = receivers.flatMap((first, i) =>
    receivers.slice(i + 1).map((second) => {
      const found = runs.map(({ members }) => pairIn(members, first, second, section));
      const byRun = found.map((pair) => pair?.difference ?? null);
      const differences = known(byRun);
      const floors = found.flatMap((pair) => (pair ? [pair.floor] : []));
      return { first, second, byRun, differences, spread: overRuns(differences), floors };
    }),
  );
  const adjusted = holm(drafts.map(({ spread }) => spread?.pValue ?? null));
  return drafts.map(({ first, second, byRun, differences, spread, floors }, i): SummaryPair => {
    const n = differences.length;
    const floor = Math.max(assessments[0].method.options.leverArm, ...floors);
    const limits: string[] = [];
    let verdict: SummaryPair['verdict'] = 'undecided';
    if (!spread) limits.push('no run has both');
    else if (!spread.interval95) limits.push('one run ranks nothing');
    else {
      const [low, high] = spread.interval95;
      if (isConfounded(placements(runs, first, second)))
        limits.push('never swapped between places: it may be the place');
      else if (low > -equivalence && high < equivalence) verdict = 'equivalent';
      else if (low <= 0 && high >= 0) limits.push('the interval includes 0');
      else if (Math.abs(spread.mean) <= floor) limits.push(`smaller than the floor of ${floor.toFixed(1)} m`);
      else if ((adjusted[i] ?? 1) > 0.05) limits.push('not beyond chance among so many pairs');
      else verdict = 'closer';
    }
    const needed = spread?.sd == null ? null : runsNeeded(spread.sd, spread.mean);
    return {
      first,
      second,
      section,
      runs: n,
      difference: spread?.mean ?? null,
      interval95: spread?.interval95 ?? null,
      verdict,
      ...(verdict === 'closer' ? { closer: spread!.mean < 0 ? first : second } : {}),
      floor,
      pValue: spread?.pValue ?? null,
      signFlipPValue: signFlip(differences),
      adjustedPValue: adjusted[i],
      betweenRunSd: spread?.sd ?? null,
      detectable: spread?.sd == null ? null : detectableDifference(spread.sd, n),
      moreRuns: needed === null ? null : Math.max(0, needed - n),
      byRun,
      limits,
    };
  });
}

/** The pair of one run, its difference counted from `first`. */
function pairIn(members: readonly Member[], first: string, second: string, section: string | null) {
  const a = members.find(({ receiver }) => receiver === first);
  const b = members.find(({ receiver }) => receiver === second);
  if (!a || !b) return undefined;
  for (const pair of a.assessment.pairs) {
    if (pair.section !== section || pair.difference === null) continue;
    if (pair.first === a.recording && pair.second === b.recording) {
      return { difference: pair.difference, floor: pair.floor };
    }
    if (pair.first === b.recording && pair.second === a.recording) {
      return { difference: -pair.difference, floor: pair.floor };
    }
  }
  return undefined;
}

function placements(runs: readonly Run[], first: string, second: string): [string | null, string | null][] {
  return runs.flatMap(({ members }): [string | null, string | null][] => {
    const a = members.find(({ receiver }) => receiver === first);
    const b = members.find(({ receiver }) => receiver === second);
    return a && b ? [[a.placement, b.placement]] : [];
  });
}

function summaryOrder(
  section: string | null,
  rows: readonly SummaryRow[],
  pairs: readonly SummaryPair[],
  runs: number,
): SummaryOrder {
  const sorted = rows.filter((row) => row.meanAbsolute !== null).sort((a, b) => a.meanAbsolute! - b.meanAbsolute!);
  const names = sorted.map(({ receiver }) => receiver);
  const winner = (a: string, b: string) =>
    pairs.find(({ first, second }) => (first === a && second === b) || (first === b && second === a))?.closer;
  const ties = tieGroups(names.length, (i, j) => winner(names[i], names[j]) !== undefined);
  const where = section === null ? 'Over the whole route' : `On “${section}”`;
  const told = pairs.flatMap(({ first, second, closer, difference, interval95 }) => {
    if (closer === undefined) return [];
    const [low, high] = interval95!.map(Math.abs).sort((a, b) => a - b);
    const size = Math.abs(difference!).toFixed(1);
    return [
      `“${closer}” lay closer than “${closer === first ? second : first}” by ${size} m (${low.toFixed(1)} to ${high.toFixed(1)})`,
    ];
  });
  const said = told.length > 0 ? told.join('; ') : 'no difference between the receivers is shown';
  return {
    section,
    entries: sorted.map(({ receiver, meanAbsolute }, i) => ({
      receiver,
      meanAbsolute: meanAbsolute!,
      ties: ties[i],
      place: [
        1 + names.filter((other) => other !== receiver && winner(receiver, other) === other).length,
        names.length - names.filter((other) => other !== receiver && winner(receiver, other) === receiver).length,
      ],
    })),
    sentence: `${where}: ${said}. ${runs} ${runs === 1 ? 'run' : 'runs'}.`,
  };
}

/** Mean distance at one place minus that at another, within each receiver that was worn at both, over the receivers. */
function placementEffects(runs: readonly Run[]): PlacementEffect[] {
  const figures = runs.flatMap(({ members }) =>
    members.flatMap(({ assessment, recording, receiver, placement }) => {
      const row = assessment.rows.find((one) => one.recording === recording && one.section === null);
      return placement === null || row?.meanAbsolute == null ? [] : [{ receiver, placement, value: row.meanAbsolute }];
    }),
  );
  const places = [...new Set(figures.map(({ placement }) => placement))];
  const receivers = [...new Set(figures.map(({ receiver }) => receiver))];
  return places.flatMap((first, i) =>
    places.slice(i + 1).flatMap((second): PlacementEffect[] => {
      const at = (receiver: string, placement: string) =>
        overRuns(
          figures.filter((one) => one.receiver === receiver && one.placement === placement).map(({ value }) => value),
        )?.mean;
      const differences = receivers.flatMap((receiver) => {
        const [a, b] = [at(receiver, first), at(receiver, second)];
        return a === undefined || b === undefined ? [] : [a - b];
      });
      const spread = overRuns(differences);
      if (!spread) return [];
      return [{ first, second, receivers: differences.length, difference: spread.mean, interval95: spread.interval95 }];
    }),
  );
}

function describe(assessments: readonly Assessment[], runs: number): TestSummary['method'] {
  const { library, version, cautions, sentences }: AssessmentMethod = assessments[0].method;
  return {
    library,
    version,
    hash: hashNumbers(assessments.map(({ method }) => method.hash)),
    sentences: [
      `The run is the unit: ${runs} ${runs === 1 ? 'run' : 'runs'}, each counting once.`,
      'Intervals and verdicts over runs: paired t on each run’s mean difference over what both covered, Holm’s correction over the pairs of a section; the exact sign-flip test beside it.',
      'Detectable: the true difference that as many runs would find four times in five.',
      ...sentences,
    ],
    cautions,
  };
}

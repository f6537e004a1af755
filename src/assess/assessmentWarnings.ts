import { group, least } from 'd3-array';
import { type Route, sectionFinder } from '../model';
import type {
  AssessedRecording,
  AssessmentRow,
  AssessmentWarning,
  CommonShift,
  Exclusion,
  ReferenceDoubt,
} from './Assessment';
import { commonSide } from './commonSide';
import type { FarTogether } from './farTogether';
import { isConfounded } from './isConfounded';
import { sharedDetours } from './sharedDetours';
import { sparseAmong } from './sparseAmong';
import { wornPlaces } from './wornPlaces';

/** Metres by which a recording must go on further back, and how many times as far as it moved, for it to have come round again. */
const BACK = 100;
const ACROSS = 5;

/** Share of its mean distance by which straight lines alone bring a recording closer before that is said. */
const WORTH_A_WORD = 0.05;

/** Metres within which nobody keeps to a line all the way, common practice, no source; on a line known better than that, this share of its uncertainty. */
const TOO_NEAR = 0.25;

/** Metres below which a shift of all recordings is not worth a word. */
const LEAST_SHIFT = 1;

/** What the warnings are drawn from. */
export interface Findings {
  readonly route: Route;
  readonly recordings: readonly AssessedRecording[];
  readonly rows: readonly AssessmentRow[];
  readonly doubt: ReferenceDoubt | null;
  readonly shift: CommonShift | null;
  /** Where all recordings lie far off. */
  readonly far: readonly FarTogether[];
  /** The mean offsets of those included on a stretch, but for where they do. */
  readonly offsets: (from: number, to: number) => readonly Pick<AssessmentRow, 'bias' | 'coverage'>[];
  readonly lateral95: number | null;
  readonly excluded: readonly Exclusion[];
}

/** What a reader must know of the assessment as a whole, beyond the recordings left out. */
export function assessmentWarnings(findings: Findings): AssessmentWarning[] {
  const { route, rows, doubt, shift, far, offsets, lateral95, excluded } = findings;
  const warnings: AssessmentWarning[] = [];
  const warn = (reason: AssessmentWarning['reason'], message: string, about: Partial<AssessmentWarning> = {}) =>
    warnings.push({ recording: null, section: null, from: null, to: null, ...about, reason, message });
  const sectionsAt = sectionFinder(route);
  /** A stretch by its metres, and by the innermost section that holds all of it. */
  const along = (from: number, to: number) => {
    const around = sectionsAt((from + to) / 2).find((one) => one.from <= from + 1e-3 && one.to >= to - 1e-3);
    return { section: around?.name ?? null, from, to };
  };
  const included = findings.recordings.filter((recording) => recording.included);

  const wholes = new Map(rows.flatMap((row) => (row.section === null ? [[row.recording, row]] : [])));
  const nearest = TOO_NEAR * Math.min(1, lateral95 ?? 1);
  for (const { name, data, fixes, ambiguous, laps, gaps, placing } of included) {
    const whole = wholes.get(name)!;
    if (whole.p95 !== null && whole.p95 < nearest && whole.limits.every(({ reason }) => reason !== 'own-draft')) {
      const message = `It keeps within ${whole.p95.toFixed(2)} m of the line, nearer than lines are known and kept to: was it put onto a map, or the line drawn from it?`;
      warn('on-the-line', message, { recording: name });
    }
    if (data.missingTimes === fixes) {
      warn('no-times', 'It has no times: nothing is said about timed gaps, stops or pace.', { recording: name });
    }
    if (whole.coverage < 0.8) {
      const percent = Math.round(100 * whole.coverage);
      warn('low-coverage', `It covers ${percent} % of the route: its figures describe that part only.`, {
        recording: name,
      });
    }
    for (const { reason, message } of placing) warn(reason, message, { recording: name });
    for (const { from, to, message } of ambiguous) {
      warn('ambiguous', message, { recording: name, ...along(Math.min(from, to), Math.max(from, to)) });
    }
    for (const { from, to, metres, reason } of gaps) {
      if (reason !== 'jump' || from === null || to === null || from - to < Math.max(BACK, ACROSS * metres)) continue;
      const back = `It goes on ${(from - to).toFixed(0)} m further back, though it moved ${metres.toFixed(0)} m`;
      const message = `${back}: a lap more than the line has? Figures of this stretch take its passes together.`;
      warn('ambiguous', message, { recording: name, ...along(to, from) });
    }
    if (laps && laps.seen < laps.planned && gaps.some(({ reason }) => reason === 'break' || reason === 'pause')) {
      const message = `It shows ${laps.seen} of ${laps.planned} laps and was interrupted: which are missing is uncertain.`;
      warn('ambiguous', message, { recording: name });
    }
  }
  const gain = sparseAmong(
    included,
    group(rows, ({ recording }) => recording),
  );
  for (const members of group(included, ({ run }) => run).values()) {
    const dense = least(members, (a, b) => (a.fixSpacing?.median ?? Infinity) - (b.fixSpacing?.median ?? Infinity))!;
    for (const { name, fixSpacing } of members) {
      const share = gain(name, dense.name);
      if (share < WORTH_A_WORD) continue;
      const fixes = `It has a fix every ${shown(fixSpacing!.median)} m, “${dense.name}” every ${shown(dense.fixSpacing!.median)} m`;
      const message = `${fixes}: errors average out on the straight lines between, which alone brings it up to ${(100 * share).toFixed(0)} % closer. No verdict rests on that.`;
      warn('sparse-fixes', message, { recording: name });
    }
  }
  const detours = sharedDetours(included);
  for (const { from, to } of detours) {
    if (excluded.some((stretch) => stretch.from <= from && stretch.to >= to)) continue;
    const message =
      'Every recording of the run left the route here: if that detour was really travelled, exclude the stretch.';
    warn('shared-detour', message, along(from, to));
  }
  for (const { from, to, metres } of far) {
    if (detours.some((detour) => detour.from <= to && detour.to >= from)) continue;
    const message = `All recordings that pass here lie up to ${metres.toFixed(0)} m off the line, nearer to each other than to it: was another way travelled? Correct the line, or exclude the stretch.`;
    warn('shared-detour', message, along(from, to));
  }

  const runs = new Set(included.map(({ run }) => run));
  if (runs.size === 1 && included.length > 1) {
    warn('one-run', 'One run ranks nothing: intervals and verdicts hold for this run only.');
  }
  const keyOf = ({ receiver, name }: AssessedRecording) => receiver ?? name;
  const receivers = [...new Set(included.map(keyOf))];
  const worn = wornPlaces(included);
  for (const [i, first] of receivers.entries()) {
    for (const second of receivers.slice(i + 1)) {
      if (!isConfounded(worn(first, second))) continue;
      warn(
        'unbalanced',
        `“${first}” and “${second}” were not swapped between places: a difference between them may come from where they were worn.`,
      );
    }
  }
  if (route.sections.length === 0)
    warn('no-sections', 'The route has no sections: every figure is for the whole of it.');
  if (lateral95 === null) {
    warn(
      'no-uncertainty',
      'The reference does not state its uncertainty everywhere: verdicts hold only if it is the line travelled.',
    );
  }
  if (doubt && doubt.orderChanges > 0) {
    // the floor sees to it: what was told apart differs by more than any such move changes
    warn(
      'order-depends-on-reference',
      'Moving the reference by its stated uncertainty changes the order, but of none told apart.',
    );
  }
  const limit = Math.max(LEAST_SHIFT, lateral95 ?? 0);
  const sided = (from: number, to: number) => {
    const side = commonSide(offsets(from, to), limit);
    // a shift of the whole map explains it as well
    return side && shift && Math.abs(side.metres) <= shift.distance ? undefined : side;
  };
  const sides = [{ section: null, from: null, to: null, side: sided(0, route.length) }];
  for (const { section, from, to, side } of sides[0].side
    ? sides
    : route.sections.map(({ name, from, to }) => ({ section: name, from, to, side: sided(from, to) }))) {
    if (!side) continue;
    const { metres, limits } = side;
    const [low, high] = limits.map(Math.abs).sort((a, b) => a - b);
    const where = `${Math.abs(metres).toFixed(1)} m ${metres < 0 ? 'left' : 'right'} of the line`;
    warn(
      'common-side',
      `All recordings together lie ${where} (${low.toFixed(1)} to ${high.toFixed(1)}): what all share is the line’s, the place’s or the wearer’s, not one receiver’s. Was the line drawn on the other side of the way? Nothing was moved.`,
      { section, from, to },
    );
  }
  if (shift && shift.distance > limit) {
    const { distance, azimuth } = shift;
    warn(
      'common-shift',
      `All recordings together lie ${distance.toFixed(1)} m from the reference, towards ${Math.round(azimuth) % 360}°: the reference, or the map it was drawn on, may be displaced. Nothing was moved.`,
    );
  }
  for (const { from, to, reason } of excluded)
    warn('excluded', `Left out for all recordings: ${reason}.`, along(from, to));
  for (const { from, to, message } of route.warnings) warn('route', message, along(from, to));
  return warnings;
}

/** A spacing: below 10 m the first decimal counts. */
const shown = (metres: number) => metres.toFixed(metres < 10 ? 1 : 0);

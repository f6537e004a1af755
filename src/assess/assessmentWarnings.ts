import { type Route, sectionsAt } from '../model';
import type {
  AssessedRecording,
  AssessmentRow,
  AssessmentWarning,
  CommonShift,
  Exclusion,
  ReferenceDoubt,
} from './Assessment';
import { isConfounded } from './isConfounded';
import { sharedDetours } from './sharedDetours';
import { wornPlaces } from './wornPlaces';

/** What the warnings are drawn from. */
export interface Findings {
  readonly route: Route;
  readonly recordings: readonly AssessedRecording[];
  readonly rows: readonly AssessmentRow[];
  readonly doubt: ReferenceDoubt | null;
  readonly shift: CommonShift | null;
  readonly lateral95: number | null;
  readonly excluded: readonly Exclusion[];
}

/** What a reader must know of the assessment as a whole, beyond the recordings left out. */
export function assessmentWarnings(findings: Findings): AssessmentWarning[] {
  const { route, rows, doubt, shift, lateral95, excluded } = findings;
  const warnings: AssessmentWarning[] = [];
  const warn = (reason: AssessmentWarning['reason'], message: string, about: Partial<AssessmentWarning> = {}) =>
    warnings.push({ recording: null, section: null, from: null, to: null, ...about, reason, message });
  /** A stretch by its metres, and by the innermost section that holds all of it. */
  const along = (from: number, to: number) => {
    const around = sectionsAt(route, (from + to) / 2).find((one) => one.from <= from + 1e-3 && one.to >= to - 1e-3);
    return { section: around?.name ?? null, from, to };
  };
  const included = findings.recordings.filter((recording) => recording.included);

  const wholes = new Map(rows.flatMap((row) => (row.section === null ? [[row.recording, row]] : [])));
  for (const { name, data, fixes, ambiguous, laps, gaps, placing } of included) {
    const whole = wholes.get(name)!;
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
    if (laps && laps.seen < laps.planned && gaps.some(({ reason }) => reason === 'break' || reason === 'pause')) {
      const message = `It shows ${laps.seen} of ${laps.planned} laps and was interrupted: which are missing is uncertain.`;
      warn('ambiguous', message, { recording: name });
    }
  }
  for (const { from, to } of sharedDetours(included)) {
    if (excluded.some((stretch) => stretch.from <= from && stretch.to >= to)) continue;
    const message =
      'Every recording of the run left the route here: if that detour was really travelled, exclude the stretch.';
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
    warn('order-depends-on-reference', 'Moving the reference by its stated uncertainty changes the order.');
  }
  if (shift && shift.distance > Math.max(1, lateral95 ?? 0)) {
    const { distance, azimuth } = shift;
    warn(
      'common-shift',
      `All recordings together lie ${distance.toFixed(1)} m from the reference, towards ${azimuth.toFixed(0)}°: the reference, or the map it was drawn on, may be displaced. Nothing was moved.`,
    );
  }
  for (const { from, to, reason } of excluded)
    warn('excluded', `Left out for all recordings: ${reason}.`, along(from, to));
  for (const { from, to, message } of route.warnings) warn('route', message, along(from, to));
  return warnings;
}

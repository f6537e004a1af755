import { assess, InputError, type Recording, type Route, type Snapped, snap } from 'datumline';
import type { Fit } from './Task';

/** How much of the line a recording covers, as the report will have it, and where it was placed. */
export function fitOf(route: Route, recording: Recording): Fit & { readonly snapped: Snapped | undefined } {
  let snapped: Snapped | undefined;
  try {
    snapped = snap(route, recording);
    const assessment = assess(route, [{ recording, snapped }]);
    const whole = assessment.rows.find(({ section }) => section === null);
    return { snapped, coverage: whole?.coverage ?? 0, remark: assessment.recordings[0].leftOut?.message ?? null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { snapped, coverage: 0, remark: error.message };
  }
}

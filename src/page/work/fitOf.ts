import { assess, InputError, type Recording, type Route } from 'datumline';
import type { Fit } from './Task';

/** How much of the line a recording covers, as the report will have it. */
export function fitOf(route: Route, recording: Recording): Fit {
  try {
    const assessment = assess(route, [recording]);
    const whole = assessment.rows.find(({ section }) => section === null);
    return { coverage: whole?.coverage ?? 0, remark: assessment.recordings[0].leftOut?.message ?? null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { coverage: 0, remark: error.message };
  }
}

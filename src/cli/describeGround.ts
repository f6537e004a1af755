import { type Assessment, groundSentences } from '../assess';
import type { TestSummary } from '../runs';

/** Who went through which area, and how much each lay inside the allowed ones: recordings of one run, or receivers over all. */
export function describeGround(assessments: readonly Assessment[], summary?: TestSummary): string[] {
  const allowed = (assessments[0].route.areas ?? []).flatMap(({ name, kind }) => (kind === 'allowed' ? [name] : []));
  if (!summary) {
    const [{ rows, passages }] = assessments;
    const whole = rows.filter(({ section }) => section === null);
    const told = whole.map((row) => ({
      ...row,
      name: row.recording,
      passages: passages.filter(({ recording }) => recording === row.recording),
    }));
    return groundSentences(told, allowed);
  }
  const told = summary.rows
    .filter(({ section }) => section === null)
    .map((row) => ({
      ...row,
      name: row.receiver,
      passages: assessments.flatMap(({ recordings, passages }) =>
        passages.filter(({ recording }) =>
          recordings.some(({ name, receiver }) => name === recording && (receiver ?? name) === row.receiver),
        ),
      ),
    }));
  return groundSentences(told, allowed);
}

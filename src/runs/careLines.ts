import { type Assessment, type AssessmentWarning, warningLine } from '../assess';
import type { TestSummary } from './TestSummary';

/**
 * What to bear in mind when the findings are read, a line each: what holds of every run, of the test, then of single runs. What
 * is said of several runs in the same words is one line.
 */
export function careLines(assessments: readonly Assessment[], summary: TestSummary | null): string[] {
  const several = summary !== null || assessments.length > 1;
  const said = new Map<string, { warning: AssessmentWarning; runs: Set<string>; by: Set<Assessment> }>();
  const messages = new Set<string>();
  for (const assessment of assessments) {
    const runOf = new Map(assessment.recordings.map(({ name, run }) => [name, run]));
    const ofAll = new Set(runOf.values());
    for (const warning of assessment.warnings) {
      messages.add(warning.message);
      // over several runs the summary itself says whether there were enough and whether receivers were swapped
      if (summary !== null && (warning.reason === 'one-run' || warning.reason === 'unbalanced')) continue;
      const line = warningLine(warning);
      const entry = said.get(line) ?? { warning, runs: new Set(), by: new Set() };
      said.set(line, entry);
      entry.by.add(assessment);
      for (const run of warning.recording === null ? ofAll : [runOf.get(warning.recording)])
        if (run) entry.runs.add(run);
    }
  }
  const isOfAll = ({ warning, by }: { warning: AssessmentWarning; by: Set<Assessment> }) =>
    warning.recording === null && by.size === assessments.length;
  const lines = [...said.values()];
  const ofTest = summary?.warnings.map(({ message }) => message).filter((message) => !messages.has(message)) ?? [];
  return [
    ...lines.filter(isOfAll).map(({ warning }) => warningLine(warning)),
    ...ofTest,
    ...lines
      .filter((line) => !isOfAll(line))
      .map(({ warning, runs }) => warningLine(warning, several ? [...runs] : [])),
  ];
}

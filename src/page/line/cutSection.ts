import type { Drawing, StepPath } from './Drawing';
import { spliceSteps } from './spliceSteps';
import { siblingsOf, stepAt, stepPast } from './stepsIn';
import { walkSteps } from './walkSteps';

/**
 * A section begun at a point: at the end of the step at `path`, or at a vertex of the line that it follows, which becomes two
 * lines there. It ends where the next one begins.
 *
 * @returns the same drawing where only a part of a line is followed, or against its direction: that can be cut at its ends alone
 */
export function cutSection(drawing: Drawing, path: StepPath, name: string, vertex?: number): Drawing {
  const step = stepAt(drawing, path);
  const section = { call: 'section', name } as const;
  if (step?.call === 'follow' && vertex !== undefined && vertex < step.line.length - 1) {
    if (vertex === 0) return spliceSteps(drawing, path, 0, section);
    if (step.from !== undefined || step.to !== undefined || step.reverse !== undefined) return drawing;
    const [before, after] = [step.line.slice(0, vertex + 1), step.line.slice(vertex)];
    return spliceSteps(drawing, path, 1, { ...step, line: before }, section, { ...step, line: after });
  }
  if (step === undefined && siblingsOf(drawing, path).length === 0) return drawing;
  return spliceSteps(drawing, stepPast(path), 0, section);
}

/** A name for a section that no section of the drawing has. */
export function freeSectionName(drawing: Drawing): string {
  const taken = new Set<string>();
  for (const { step } of walkSteps(drawing)) if (step.call === 'section') taken.add(step.name);
  let number = 1;
  while (taken.has(`section ${number}`)) number++;
  return `section ${number}`;
}

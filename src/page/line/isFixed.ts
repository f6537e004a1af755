import type { Drawing } from './Drawing';

const MADE_OF_OTHERS: readonly string[] = ['offset', 'slice', 'reverse', 'join'];

/** Whether the line was made of other lines: it is kept and saved as it is, and has nothing that could be moved. */
export function isFixed(drawing: Drawing): boolean {
  return drawing.steps.length === 1 && MADE_OF_OTHERS.includes(drawing.steps[0].call);
}

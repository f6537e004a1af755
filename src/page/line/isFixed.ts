import type { Drawing } from './Drawing';

/** Whether the line was made of other lines: it is kept and saved as it is, and has nothing that could be moved. */
export function isFixed(drawing: Drawing): boolean {
  const [step] = drawing.steps;
  return drawing.steps.length === 1 && ('recipe' in step || 'recipes' in step);
}

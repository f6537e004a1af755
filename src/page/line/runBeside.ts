import type { FollowOptions } from 'datumline';
import type { Position } from 'geojson';
import type { Drawing, StepPath } from './Drawing';
import { spliceSteps } from './spliceSteps';
import { NAMES, siblingsOf, stepAt } from './stepsIn';

/**
 * A leg run beside what is drawn: a straight one becomes a line that is followed, one that is followed gets another side and
 * distance. 0 metres is on the line itself. Where it is the first leg, the line begins beside it.
 *
 * @param from - Where a straight leg begins.
 */
export function runBeside(
  drawing: Drawing,
  path: StepPath,
  { side, metres }: Required<Pick<FollowOptions, 'side' | 'metres'>>,
  from?: Position,
): Drawing {
  const step = stepAt(drawing, path);
  const beside = metres > 0 ? { side, metres } : {};
  if (step?.call === 'follow') {
    const { side: _, metres: __, ...rest } = step;
    return spliceSteps(drawing, path, 1, { ...rest, ...beside });
  }
  if (step?.call !== 'lineTo' || from === undefined || metres === 0) return drawing;
  const legged = spliceSteps(drawing, path, 1, { call: 'follow', line: [from, step.position], ...beside });
  const index = path[path.length - 1];
  const outer = path.slice(0, -1);
  const before = siblingsOf(drawing, path).slice(0, index);
  const start = before.map(({ call }) => call).lastIndexOf('start');
  const isFirst = start !== -1 && before.slice(start + 1).every(({ call }) => NAMES.includes(call));
  return isFirst ? spliceSteps(legged, [...outer, start], 1) : legged;
}

import { checkArray, checkNumber, checkOptions, InputError, type Route } from '../model';
import type { Exclusion } from './Assessment';

/** Refuses stretches that don't lie on the route or state no reason; returns copies. */
export function checkExclusions(exclude: readonly Exclusion[], route: Route): Exclusion[] {
  checkArray(exclude, 'options.exclude');
  return exclude.map((stretch, i) => {
    const argument = `options.exclude[${i}]`;
    checkOptions<Exclusion>(stretch, { from: true, to: true, reason: true }, argument);
    const from = checkNumber(stretch.from, `${argument}.from`, { min: 0, max: route.length });
    const to = checkNumber(stretch.to, `${argument}.to`, { min: from, max: route.length });
    if (typeof stretch.reason !== 'string' || stretch.reason.trim() === '') {
      throw new InputError({
        reason: 'missing',
        argument: `${argument}.reason`,
        rule: 'stated in words',
        value: stretch.reason,
      });
    }
    return { from, to, reason: stretch.reason };
  });
}

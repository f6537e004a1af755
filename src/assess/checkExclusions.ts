import { checkArray, checkChoice, checkNumber, checkOptions, InputError, type Route } from '../model';
import type { Exclusion, SectionExclusion } from './Assessment';

/**
 * The stretches to take out; those of sections found by their name. Refuses what doesn't lie on the route or states no
 * reason.
 *
 * @param authored - the same route with its sections as they were called before laps told them apart
 */
export function checkExclusions(
  exclude: readonly (Exclusion | SectionExclusion)[],
  route: Route,
  authored: Route,
): Exclusion[] {
  checkArray(exclude, 'options.exclude');
  const called = route.sections.map(({ name }, k) => [name, authored.sections[k].name]);
  const names = [...new Set(called.flat())];
  return exclude.flatMap((stretch, i): Exclusion[] => {
    const argument = `options.exclude[${i}]`;
    const bySection = typeof stretch === 'object' && stretch !== null && 'section' in stretch;
    if (bySection) checkOptions<SectionExclusion>(stretch, { section: true, reason: true }, argument);
    else checkOptions<Exclusion>(stretch, { from: true, to: true, reason: true }, argument);
    if (typeof stretch.reason !== 'string' || stretch.reason.trim() === '') {
      throw new InputError({
        reason: 'missing',
        argument: `${argument}.reason`,
        rule: 'stated in words',
        value: stretch.reason,
      });
    }
    const { reason } = stretch;
    if (!bySection) {
      const from = checkNumber(stretch.from, `${argument}.from`, { min: 0, max: route.length });
      const to = checkNumber(stretch.to, `${argument}.to`, { min: from, max: route.length });
      return [{ from, to, reason }];
    }
    if (called.length === 0) {
      const rule = 'left away: the route has no sections';
      throw new InputError({ reason: 'misplaced', argument: `${argument}.section`, rule, value: stretch.section });
    }
    checkChoice(stretch.section, `${argument}.section`, names);
    return route.sections.flatMap(({ from, to }, k) =>
      called[k].includes(stretch.section) ? [{ from, to, reason }] : [],
    );
  });
}

import { bisector } from 'd3-array';
import type { Route, RouteWarning, Section } from '../model';

/** Metres: sections that share less than this share only their end. */
const TOUCHING = 1e-3;

/** Pairs of sections told one by one; those beyond them are counted. */
const MOST = 99;

type Columns = Pick<Route, 'sections' | 'lateral95' | 'alongTrack'>;

/** Sections that are empty, share a stretch, or are narrower than the line is known. */
export function sectionWarnings({ sections, lateral95, alongTrack }: Columns): RouteWarning[] {
  const warnings: RouteWarning[] = [];
  const long: Section[] = [];
  for (const section of sections) {
    const { name, from, to } = section;
    if (to - from >= TOUCHING) long.push(section);
    else warnings.push({ reason: 'empty-section', from, to, message: `Section '${name}' has no length.` });
  }
  return [...warnings, ...overlaps(long), ...narrowOnes(long, { lateral95, alongTrack })];
}

const byFrom = bisector(({ from }: { readonly from: number }) => from);

/** Every two sections of which neither lies in the other and that share a stretch, of sections in order along the route. */
function overlaps(sections: readonly Section[]): RouteWarning[] {
  const warnings: RouteWarning[] = [];
  let rest: { from: number; to: number; count: number } | undefined;
  sections.forEach((section, i) => {
    const end = byFrom.right(sections, section.to - TOUCHING, i + 1);
    for (let k = i + 1; k < end; k++) {
      const other = sections[k];
      if (!isAcross(section, other)) continue;
      if (warnings.length === MOST) {
        rest ??= { from: other.from, to: section.to, count: 0 };
        rest.to = Math.max(rest.to, section.to);
        rest.count += sections.slice(k, end).filter((one) => isAcross(section, one)).length;
        break;
      }
      warnings.push({
        reason: 'overlapping-sections',
        from: other.from,
        to: Math.min(section.to, other.to),
        message: `Sections '${section.name}' and '${other.name}' share this stretch.`,
      });
    }
  });
  if (rest === undefined) return warnings;
  const message = `${rest.count} more pairs of sections share a stretch.`;
  return [...warnings, { reason: 'overlapping-sections', ...rest, message }];
}

/** Whether a section that begins later ends later too: one in the other is meant so. */
function isAcross(section: Section, other: Section): boolean {
  return other.from > section.from + TOUCHING && other.to > section.to + TOUCHING;
}

/** Sections that are narrower than their line is known. */
function narrowOnes(
  sections: readonly Section[],
  { lateral95, alongTrack }: Omit<Columns, 'sections'>,
): RouteWarning[] {
  /** Where a stretch of one uncertainty begins. */
  const stretches: { from: number; value: number }[] = [];
  alongTrack.forEach((from, i) => {
    if (!Object.is(stretches.at(-1)?.value, lateral95[i])) stretches.push({ from, value: lateral95[i] });
  });
  return sections.flatMap(({ name, from, to, halfWidth }) => {
    if (halfWidth === undefined) return [];
    let worst = 0;
    for (let k = Math.max(byFrom.right(stretches, from) - 1, 0); k < stretches.length && stretches[k].from < to; k++) {
      if (stretches[k].value > worst) worst = stretches[k].value;
    }
    if (!(halfWidth < worst)) return [];
    const message = `Section '${name}' is ${halfWidth} m wide on either side, but its line is known only within ${worst} m.`;
    return [{ reason: 'narrow-corridor' as const, from, to, message }];
  });
}

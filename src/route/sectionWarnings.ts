import type { Route, RouteWarning } from '../model';

/** Metres: sections that share less than this share only their end. */
const TOUCHING = 1e-3;

/** Sections that are empty, share a stretch, or are narrower than the line is known. */
export function sectionWarnings({
  sections,
  lateral95,
  alongTrack,
}: Pick<Route, 'sections' | 'lateral95' | 'alongTrack'>): RouteWarning[] {
  const warnings: RouteWarning[] = [];
  sections.forEach((section, i) => {
    const { name, from, to, halfWidth } = section;
    if (to - from < TOUCHING) {
      warnings.push({ reason: 'empty-section', from, to, message: `Section '${name}' has no length.` });
      return;
    }
    for (const other of sections.slice(i + 1)) {
      if (other.from > to - TOUCHING) break;
      if (other.to - other.from < TOUCHING) continue;
      warnings.push({
        reason: 'overlapping-sections',
        from: other.from,
        to: Math.min(to, other.to),
        message: `Sections '${name}' and '${other.name}' share this stretch.`,
      });
    }
    if (halfWidth === undefined) return;
    let worst = 0;
    alongTrack.forEach((at, k) => {
      if (at >= from && at < to && lateral95[k] > worst) worst = lateral95[k];
    });
    if (halfWidth < worst) {
      const message = `Section '${name}' is ${halfWidth} m wide on either side, but its line is known only within ${worst} m.`;
      warnings.push({ reason: 'narrow-corridor', from, to, message });
    }
  });
  return warnings;
}

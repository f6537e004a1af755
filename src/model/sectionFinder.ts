import { bisector } from 'd3-array';
import type { Route, Section } from './Route';

/**
 * The function that gives every section of a route that holds a place, given as metres along the route: the shortest first, which
 * is the innermost of those in one another; none for NaN.
 *
 * A section holds its beginning and not its end, which belongs to the section that begins there; where none does, to those
 * that end there.
 *
 * @remarks n log n once; then as long as it takes to halve n, and to go through the sections that hold the place and those
 * that overlap them.
 */
export function sectionFinder({ sections }: Pick<Route, 'sections'>): (alongTrack: number) => Section[] {
  const byFrom = bisector(({ from }: Section) => from);
  const byTo = bisector(({ to }: Section) => to);
  const begun = [...sections].sort((a, b) => a.from - b.from);
  const ended = [...sections].sort((a, b) => a.to - b.to);
  /** For each the last before it that reaches beyond its beginning. */
  const around: number[] = [];
  /** The furthest that it or one before it reaches. */
  const furthest: number[] = [];
  begun.forEach(({ from, to }, i) => {
    let before = i - 1;
    while (before >= 0 && begun[before].to <= from) before = around[before];
    around.push(before);
    furthest.push(Math.max(to, furthest[i - 1] ?? to));
  });
  return (alongTrack) => {
    const found: Section[] = [];
    for (let i = byFrom.right(begun, alongTrack) - 1; i >= 0 && furthest[i] > alongTrack; i = around[i]) {
      if (alongTrack < begun[i].to) found.push(begun[i]);
    }
    if (found.length === 0)
      return ended.slice(byTo.left(ended, alongTrack), byTo.right(ended, alongTrack)).sort(innermost);
    return found.reverse().sort(innermost);
  };
}

function innermost(a: Section, b: Section): number {
  return a.to - a.from - (b.to - b.from) || b.from - a.from;
}

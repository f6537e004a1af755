import type { RouteWarning } from '../model';

/** As many of one kind as anybody reads through. */
const MOST = 100;

/** The warnings in order along the route, of each reason the first hundred; the others of that reason are one more. */
export function fewWarnings(warnings: readonly RouteWarning[]): RouteWarning[] {
  const told = new Map<string, number>();
  const more = new Map<string, { from: number; to: number; count: number }>();
  const few: RouteWarning[] = [];
  for (const warning of [...warnings].sort((a, b) => a.from - b.from || a.to - b.to)) {
    const { reason, from, to, count = 1 } = warning;
    const before = told.get(reason) ?? 0;
    told.set(reason, before + 1);
    const rest = more.get(reason);
    if (before < MOST) few.push(warning);
    else if (rest === undefined) more.set(reason, { from, to, count });
    else {
      rest.to = Math.max(rest.to, to);
      rest.count += count;
    }
  }
  for (const [reason, { from, to, count }] of more) {
    const message = `There are ${count} more of this kind up to ${to.toFixed(1)} m.`;
    few.push({ reason: reason as RouteWarning['reason'], from, to, count, message });
  }
  return few.sort((a, b) => a.from - b.from || a.to - b.to);
}

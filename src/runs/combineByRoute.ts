import type { Steps } from '../model';
import type { CombineOptions } from './CombineOptions';
import { combineFigures } from './combineSteps';
import { sameRoute } from './sameRoute';
import type { TakenFigures } from './TakenFigures';
import type { TestSummary } from './TestSummary';

/** Metres: routes that differ more in length are two, whatever else. */
const METRES = 1e-3;

/** Runs as people count them: the second before the tenth. */
const byName = new Intl.Collator('en', { numeric: true });

/** The summary of a route, or why there is none. */
export type RouteAnswer =
  | { readonly hash: string; readonly summary: TestSummary }
  | { readonly hash: string; readonly fault: unknown };

/**
 * What the runs over each route, figures that were checked, say together, in steps: a summary a route, in the order of the routes' hashes. The order and the
 * grouping in which the figures come change nothing.
 */
export function* combineByRoute(figures: readonly TakenFigures[], options: CombineOptions = {}): Steps<RouteAnswer[]> {
  const answers: RouteAnswer[] = [];
  for (const runs of byRoute([...figures].sort(inOrder))) {
    const { hash } = runs[0].method.inputs[0];
    try {
      answers.push({ hash, summary: yield* combineFigures(runs, options) });
    } catch (fault) {
      answers.push({ hash, fault });
    }
  }
  return answers;
}

/** By the route's hash, then by the names of the runs, then by what was judged. */
function inOrder(a: TakenFigures, b: TakenFigures): number {
  return (
    compare(a.method.inputs[0].hash, b.method.inputs[0].hash) ||
    byName.compare(runOf(a), runOf(b)) ||
    compare(runOf(a), runOf(b)) ||
    compare(a.method.hash, b.method.hash) ||
    // of other versions of this library
    compare(JSON.stringify(a), JSON.stringify(b))
  );
}

function runOf({ recordings }: TakenFigures): string {
  return recordings[0]?.run ?? '';
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Figures of one route together: of one recipe, or of recipes that draw the same line. */
function byRoute(sorted: readonly TakenFigures[]): TakenFigures[][] {
  const groups: TakenFigures[][] = [];
  for (const one of sorted) {
    const last = groups[groups.length - 1];
    if (last?.[0].method.inputs[0].hash === one.method.inputs[0].hash) last.push(one);
    else groups.push([one]);
  }
  // most routes differ in length already: only those of one length are looked at more closely
  const byLength = [...groups.entries()].sort(([i, a], [j, b]) => a[0].route.length - b[0].route.length || i - j);
  const joined = new Map<number, number>();
  byLength.forEach(([i, group], k) => {
    for (let before = k - 1; before >= 0; before--) {
      const [j, other] = byLength[before];
      if (group[0].route.length - other[0].route.length > METRES) break;
      if (joined.has(j) || !sameRoute(group[0], other[0])) continue;
      joined.set(i, j);
      break;
    }
  });
  for (const [i, j] of joined) groups[j].push(...groups[i]);
  return groups.flatMap((group, i) => (joined.has(i) ? [] : [group.sort(inOrder)]));
}

import type { Draft } from './Draft';
import type { Route } from './Route';
import type { RouteWarning } from './RouteWarning';
import type { RoundedLine } from './roundCorners';

/** What an author should look at, in order along the route. */
export function routeWarnings(
  draft: Draft,
  { tight, sharp }: RoundedLine,
  alongNode: readonly number[],
  _route: Omit<Route, 'warnings' | 'recipe' | 'name'>,
): RouteWarning[] {
  const at = (node: number) => ({ from: alongNode[node], to: alongNode[node] });
  const warnings: RouteWarning[] = [
    ...draft.warnings.map(({ reason, fromNode, toNode, message }) => ({
      reason,
      from: alongNode[fromNode],
      to: alongNode[toNode],
      message,
    })),
    ...tight.map(({ node, radius }) => ({
      reason: 'tight-corner' as const,
      ...at(node),
      message: `The legs are too short for the corner radius here; the corner is rounded with ${radius.toFixed(2)} m.`,
    })),
    ...sharp.map((node) => ({
      reason: 'sharp-turn' as const,
      ...at(node),
      message: 'The turn is sharper than 150° and is not rounded; a U-turn step makes a semicircle.',
    })),
  ];
  return warnings.sort((a, b) => a.from - b.from || a.to - b.to);
}

import { readdirSync } from 'node:fs';
import * as datumline from '../../src/subpaths/index';
import * as report from '../../src/subpaths/report';

type Call = (...args: never[]) => unknown;

/** Everything a user can call, by name: what the subpaths export, and the methods of what comes back, as `indexRoute.nearest`. */
export function callables(): ReadonlyMap<string, Call> {
  // the main file has all of the others but the renderers
  const known = ['assess', 'formats', 'geodesy', 'index', 'metrics', 'report', 'route', 'snap', 'whole'];
  const files = readdirSync(new URL('../../src/subpaths/', import.meta.url)).map((file) => file.replace(/\.ts$/, ''));
  const unknown = files.filter((file) => !known.includes(file));
  if (unknown.length > 0) throw new Error(`no fuzz knows the subpath ${unknown.join(', ')}`);
  const found = new Map<string, Call>();
  for (const [name, value] of Object.entries({ ...datumline, ...report })) {
    if (typeof value === 'function' && /^[a-z]/.test(name)) found.set(name, value as Call);
  }
  const { indexRoute, localPlane, routeBuilder, routeFromLine } = datumline;
  const holders = {
    indexRoute: indexRoute(
      routeFromLine([
        [5, 60],
        [5.01, 60],
      ]),
    ),
    localPlane: localPlane([5, 60]),
    routeBuilder: routeBuilder(),
  };
  for (const [name, holder] of Object.entries(holders)) {
    for (const [key, value] of Object.entries(holder))
      if (typeof value === 'function') found.set(`${name}.${key}`, value as Call);
  }
  return found;
}

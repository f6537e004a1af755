import { isKeepingRoute, keepingRoute, type Route } from '../model';

/**
 * The route with sections that share a name told apart by their lap, or else by their turn: `oval, lap 2`. It keeps what is made
 * of it, as each recording asks for the same.
 */
export function nameLaps(route: Route): Route {
  const times = new Map<string, number>();
  for (const { name } of route.sections) times.set(name, (times.get(name) ?? 0) + 1);
  if ([...times.values()].every((count) => count === 1)) return isKeepingRoute(route) ? route : keepingRoute(route);
  const taken = new Set<string>();
  /** By name, the last turn that told it from others. */
  const turns = new Map<string, number>();
  const sections = route.sections.map((section) => {
    const { name, lap } = section;
    if (times.get(name) === 1 && !taken.has(name)) {
      taken.add(name);
      return section;
    }
    let label = lap === undefined ? name : `${name}, lap ${lap}`;
    for (let turn = (turns.get(name) ?? 1) + 1; taken.has(label); turn++) {
      label = `${name}, ${turn}`;
      turns.set(name, turn);
    }
    taken.add(label);
    return { ...section, name: label };
  });
  // Copied by its properties: to spread it would ask for its warnings, which are found only when they are read.
  const properties = Object.getOwnPropertyDescriptors(route);
  const named = { ...properties, sections: { value: sections, enumerable: true } };
  return keepingRoute(Object.defineProperties({}, named) as Route);
}

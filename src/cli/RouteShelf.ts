import type { Area } from '../areas';
import type { Route } from '../model';
import { prepareRoute } from '../route';
import { readAreas } from './readAreas';
import { readRoute } from './readRoute';

/** Files of each kind that are kept. */
const KEPT = 8;

/** Routes, and areas about them, by the names of their files, each read and prepared once; the last few are kept. */
export class RouteShelf {
  readonly #routes = new Map<string, Promise<Route>>();
  readonly #areas = new Map<string, Promise<Area[]>>();

  get(file: string): Promise<Route> {
    return kept(this.#routes, file, () => readRoute(file).then(prepareRoute));
  }

  areas(file: string): Promise<Area[]> {
    return kept(this.#areas, file, () => readAreas(file));
  }
}

function kept<Read>(shelf: Map<string, Promise<Read>>, file: string, read: () => Promise<Read>): Promise<Read> {
  const found = shelf.get(file) ?? read();
  shelf.delete(file);
  shelf.set(file, found);
  if (shelf.size > KEPT) shelf.delete(shelf.keys().next().value!);
  return found;
}

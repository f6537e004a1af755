import type { Route } from '../model';
import { prepareRoute } from '../route';
import { readRoute } from './readRoute';

/** Routes by the name of their file, each read and prepared once; the last few are kept. */
export class RouteShelf {
  readonly #routes = new Map<string, Promise<Route>>();

  get(file: string): Promise<Route> {
    const route = this.#routes.get(file) ?? readRoute(file).then(prepareRoute);
    this.#routes.delete(file);
    this.#routes.set(file, route);
    if (this.#routes.size > 8) this.#routes.delete(this.#routes.keys().next().value!);
    return route;
  }
}

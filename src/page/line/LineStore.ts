import { type ReadonlySignal, signal } from '@preact/signals';
import { type Route, type RouteRecipe, routeFromGeoJson, routeFromRecipe } from 'datumline';

export type JsonValue = null | boolean | number | string | readonly JsonValue[] | { readonly [key: string]: JsonValue };

/** What is drawn, and the line built of it. */
export interface LineStore {
  readonly recipe: ReadonlySignal<RouteRecipe | null>;
  readonly route: ReadonlySignal<Route | null>;
  readonly fault: ReadonlySignal<string | null>;
  open(text: string, name: string): void;
  saved(): JsonValue;
  restore(saved: JsonValue): void;
  clear(): void;
}

/** Stands in until drawing is here. */
export function makeLineStore(): LineStore {
  const route = signal<Route | null>(null);
  const recipe = signal<RouteRecipe | null>(null);
  const take = (made: Route | null) => {
    route.value = made;
    recipe.value = made?.recipe ?? null;
  };
  return {
    ...{ recipe, route, fault: signal(null) },
    open(text) {
      const json = JSON.parse(text);
      take('steps' in json ? routeFromRecipe(json) : routeFromGeoJson(json));
    },
    saved: () => recipe.value as never,
    restore: (saved) => take(saved === null ? null : routeFromRecipe(saved as never)),
    clear: () => take(null),
  };
}

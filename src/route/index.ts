export type { Mark, Route, RouteWarning, Section } from './Route';
export type { RecipeStep, RouteOptions, RouteRecipe, SectionOptions } from './RouteRecipe';
export { type RouteBuilder, routeBuilder } from './routeBuilder';
export { routeFromLine, type Track } from './routeFromLine';
export { routeFromRecipe } from './routeFromRecipe';

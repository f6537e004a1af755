export { type JoinRoutesOptions, joinRoutes } from './joinRoutes';
export type { Track } from './linePositions';
export { type OffsetRouteOptions, offsetRoute } from './offsetRoute';
export { type PlaceOnRoute, type PointAtOptions, pointAt } from './pointAt';
export type { Arc, Mark, ProvenanceStretch, Route, Section } from './Route';
export type {
  ArcOptions,
  Beside,
  FollowOptions,
  MarkOptions,
  OffsetJoin,
  Provenance,
  RecipeStep,
  RouteOptions,
  RouteRecipe,
  SectionOptions,
  Side,
} from './RouteRecipe';
export type { RouteWarning, RouteWarningReason } from './RouteWarning';
export { recipeSchema } from './recipeSchema';
export { type RepeatedStretch, type RepeatedStretchesOptions, repeatedStretches } from './repeatedStretches';
export { reverseRoute } from './reverseRoute';
export { type LegBuilder, type RouteBuilder, routeBuilder } from './routeBuilder';
export { routeFromGeoJson } from './routeFromGeoJson';
export { routeFromLine } from './routeFromLine';
export { routeFromRecipe } from './routeFromRecipe';
export { sliceRoute } from './sliceRoute';

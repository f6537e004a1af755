export type { Area, AreaKind } from '../areas/Area';
export { type AreasFromGeoJsonOptions, areasFromGeoJson } from '../areas/areasFromGeoJson';
export { InputError, type InputErrorDetails, type InputErrorReason } from '../model/InputError';
export type { GivenLineFeature, GivenLineString, GivenPosition, Line, LineColumns } from '../model/Line';
export type { Name } from '../model/Name';
export type { Natural, PositiveSize, Size } from '../model/Quantity';
export type { Recording } from '../model/Recording';
export type { Arc, Laps, Mark, ProvenanceStretch, Route, Section } from '../model/Route';
export type {
  ArcOptions,
  Beside,
  Drafted,
  FollowOptions,
  LineToOptions,
  MarkOptions,
  OffsetJoin,
  Provenance,
  RecipeStep,
  RouteOptions,
  RouteRecipe,
  SectionOptions,
  Side,
} from '../model/RouteRecipe';
export type { RouteWarning, RouteWarningReason } from '../model/RouteWarning';
export type { Stretch } from '../model/Stretch';
export { type JoinRoutesOptions, joinRoutes } from '../route/joinRoutes';
export { type OffsetRouteOptions, offsetRoute } from '../route/offsetRoute';
export { type PointAtOptions, pointAt } from '../route/pointAt';
export { prepareRoute } from '../route/prepareRoute';
export type { RepeatedStretch } from '../route/RepeatedStretch';
export { type RepeatedStretchesOptions, repeatedStretches } from '../route/repeatedStretches';
export { reverseRoute } from '../route/reverseRoute';
export { type LegBuilder, type RouteBuilder, routeBuilder } from '../route/routeBuilder';
export { type DrawnRoute, routeFromGeoJson } from '../route/routeFromGeoJson';
export { routeFromLine } from '../route/routeFromLine';
export { routeFromRecipe } from '../route/routeFromRecipe';
export { type RouteCollection, routeToGeoJson } from '../route/routeToGeoJson';
export { sliceRoute } from '../route/sliceRoute';
export { type DraftRouteOptions, draftRoute } from '../truth/draftRoute';
export { type RouteFromTruthOptions, routeFromTruth } from '../truth/routeFromTruth';

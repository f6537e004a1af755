export { InputError, type InputErrorDetails, type InputErrorReason } from '../errors';
export { type CandidatesOptions, indexRoute, type NearestOptions, type RouteIndex } from './indexRoute';
export type { Located } from './Located';
export type { AmbiguousStretch, FixState, Snapped } from './Snapped';
export type { SharedPace } from './sharedPace';
export { type SnapOptions, snap } from './snap';
export { type SnappedBeside, type SnappedTogether, snapTogether } from './snapTogether';
export type { Placed } from './snapTrack';

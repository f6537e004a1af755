export { type CandidatesOptions, indexRoute, type NearestOptions, type RouteIndex } from '../index/indexRoute';
export { InputError, type InputErrorDetails, type InputErrorReason } from '../model/InputError';
export type { Located } from '../model/RoutePlace';
export type { AmbiguousStretch, FixState, Snapped } from '../model/Snapped';
export type { SharedPace } from '../snap/sharedPace';
export { type SnapOptions, snap } from '../snap/snap';
export { type SnappedBeside, type SnappedTogether, snapTogether } from '../snap/snapTogether';
export type { Placed } from '../snap/snapTrack';

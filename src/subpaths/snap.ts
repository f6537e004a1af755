export { type CandidatesOptions, indexRoute, type NearestOptions, type RouteIndex } from '../index/indexRoute';
export { InputError, type InputErrorDetails, type InputErrorReason } from '../model/InputError';
export type { GivenPosition } from '../model/Line';
export type { Recording } from '../model/Recording';
export type { Route } from '../model/Route';
export type { RoutePlace } from '../model/RoutePlace';
export type {
  AmbiguityReason,
  AmbiguousStretch,
  FixState,
  Skip,
  SnapIssue,
  SnapIssueReason,
  Snapped,
} from '../model/Snapped';
export type { Stretch } from '../model/Stretch';
export type { FollowedPlace, SettledPlace } from '../snap/Following';
export {
  type FollowedFix,
  type Follower,
  type FollowRouteOptions,
  followRoute,
  type SavedFollower,
} from '../snap/followRoute';
export { type FixPlace, places } from '../snap/places';
export { resumeFollowing } from '../snap/resumeFollowing';
export type { SharedPace } from '../snap/sharedPace';
export { type SnapOptions, snap } from '../snap/snap';
export { type SnappedBeside, type SnappedTogether, snapTogether } from '../snap/snapTogether';

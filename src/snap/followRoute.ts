import {
  checkMembers,
  checkNumber,
  checkOptions,
  checkPosition,
  checkRoute,
  type GivenPosition,
  InputError,
  type MemberKeys,
  type OptionKeys,
  type Route,
} from '../model';
import { type CheckedFix, type FollowedPlace, Following, type FollowingOptions, type SettledPlace } from './Following';
import { preparedRoute } from './PreparedRoute';

/** Options of {@link followRoute}. */
export interface FollowOptions {
  readonly lag?: number;
  readonly sigma?: number;
  readonly maxDistance?: number;
}

export interface FollowedFix {
  readonly position: GivenPosition;
  readonly time?: number;
  readonly accuracy?: number;
  readonly gapBefore?: 0 | 1;
}

export interface Follower {
  push(fix: FollowedFix): FollowedPlace;
  settled(): SettledPlace[];
  end(): SettledPlace[];
}

export function followRoute(route: Route, options: FollowOptions = {}): Follower {
  const following = new Following(preparedRoute(route), { lag: 30, ...options });
  return {
    push(fix) {
      const { position, time, accuracy, gapBefore = 0 } = fix;
      return following.push({ lon: position[0], lat: position[1], time, accuracy, gapBefore } as CheckedFix);
    },
    settled: () => following.settled(),
    end: () => following.end(),
  };
}

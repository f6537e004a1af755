import type { SegmentTree } from '../index';
import type { Route } from '../model';
import type { Bins } from './Bins';

/** A route made ready for recordings to be placed on it. */
export interface PreparedRoute {
  readonly route: Route;
  readonly tree: SegmentTree;
  readonly bins: Bins;
}

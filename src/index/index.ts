export * from './endPassed';
export * from './indexRoute';
export * from './PriorityQueue';
export * from './placeOnEdge';
export * from './SegmentTree';
export * from './segmentAt';

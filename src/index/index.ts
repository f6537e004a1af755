export * from './endPassed';
export * from './indexRoute';
export * from './placeOnEdge';
export * from './SegmentTree';
export * from './segmentAt';

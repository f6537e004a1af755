export * from './checkTestFile';
export * from './combine';
export * from './combineByTime';
export * from './planTest';
export * from './strictestMargin';
export * from './TestFile';
export * from './TestSummary';

export * from './checkTestFile';
export * from './combine';
export * from './TestFile';
export * from './TestSummary';

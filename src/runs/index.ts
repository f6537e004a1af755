export * from './combine';
export * from './TestFile';
export * from './TestSummary';
export * from './testFileSchema';
export * from './testSummarySchema';

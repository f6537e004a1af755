export type * from './Assessment';
export { type AssessOptions, assess, type CompanionLine } from './assess';
export { assessmentSchema } from './assessmentSchema';
export { combine } from './combine';
export type { TestExclusion, TestFile, TestOptions, TestRecording, TestRun } from './TestFile';
export type * from './TestSummary';
export type { CarriedRecording } from './testEntries';
export { testFileSchema } from './testFileSchema';
export { testSummarySchema } from './testSummarySchema';

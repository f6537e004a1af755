export type * from './Assessment';
export { type AssessOptions, assess, type CompanionLine } from './assess';
export type { TestExclusion, TestFile, TestOptions, TestRecording, TestRun } from './TestFile';
export type { CarriedRecording } from './testEntries';
export { testFileSchema } from './testFileSchema';

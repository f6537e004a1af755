export type { TestExclusion, TestFile, TestOptions, TestRecording, TestRun } from './TestFile';
export { testFileSchema } from './testFileSchema';

export type * from '../assess/Assessment';
export type { AssessOptions } from '../assess/AssessOptions';
export { assess } from '../assess/assess';
export { assessAsync } from '../assess/assessAsync';
export { type RowName, rowOf } from '../assess/rowOf';
export type { CarriedRecording } from '../assess/testEntries';
export type { AsyncOptions, StopSignal } from '../model/AsyncOptions';
export { InputError, type InputErrorDetails, type InputErrorReason } from '../model/InputError';
export type { Line } from '../model/Line';
export type { Name } from '../model/Name';
export type { Count, Natural, PositiveSize, Share, Size } from '../model/Quantity';
export type { Recording } from '../model/Recording';
export type { Route } from '../model/Route';
export type { Snapped } from '../model/Snapped';
export type { Progress } from '../model/Steps';
export type * from '../runs/AssessedFigures';
export type { CombineOptions } from '../runs/CombineOptions';
export { checkTestFile } from '../runs/checkTestFile';
export { combine } from '../runs/combine';
export { combineAsync } from '../runs/combineAsync';
export { type CombineByTimeOptions, combineByTime } from '../runs/combineByTime';
export { type FoundRecording, type GuessedRecording, type GuessedTest, guessTest } from '../runs/guessTest';
export { type PlannedTest, planTest, type TestPlan } from '../runs/planTest';
export { runFigures } from '../runs/runFigures';
export type {
  TestExclusion,
  TestFile,
  TestOptions,
  TestRecording,
  TestRun,
  TestSectionExclusion,
  TestStretchExclusion,
} from '../runs/TestFile';
export type * from '../runs/TestSummary';
export { type ErrorsByTimeOptions, errorsByTime, type TimedErrors } from '../truth/errorsByTime';
export { type JudgeByTimeOptions, judgeByTime } from '../truth/judgeByTime';
export type * from '../truth/TimedAssessment';
export type { TruthOptions } from '../truth/TrueMotion';

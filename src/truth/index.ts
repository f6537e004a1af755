export * from './errorsByTime';
export * from './judgeByTime';
export * from './TimedAssessment';
export * from './TrueMotion';

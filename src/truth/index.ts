export * from './checkTimedAssessment';
export * from './draftRoute';
export * from './errorsByTime';
export * from './judgeByTime';
export * from './routeFromTruth';
export * from './TimedAssessment';
export * from './TrueMotion';

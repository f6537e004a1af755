export * from './detectableDifference';
export * from './effectiveSamples';
export * from './holm';
export * from './meanInterval';
export * from './signFlip';
export * from './studentT';
export * from './tieGroups';

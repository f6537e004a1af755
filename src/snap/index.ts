export * from './clockOffsets';
export * from './joinPace';
export * from './risingTimes';
export * from './sharedPace';
export * from './snap';
export * from './snapPinned';
export * from './snapTogether';
export * from './snapTrack';

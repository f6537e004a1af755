export * from './sharedPace';
export * from './snap';
export * from './snapTogether';
export * from './snapTrack';

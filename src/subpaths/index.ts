export * from './assess';
export * from './formats';
export * from './geodesy';
export * from './metrics';
export * from './route';
export * from './snap';

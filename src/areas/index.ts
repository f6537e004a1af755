export * from './Area';
export * from './AreaIndex';
export * from './areasFromGeoJson';
export * from './checkAreas';
export * from './deepest';
export * from './Region';
export * from './walkLine';

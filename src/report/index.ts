export * from './errorDistribution';
export * from './planMap';
export * from './reportHtml';
export * from './reportModel';
export * from './ribbonMap';
export * from './stripChart';
export * from './toCsv';
export * from './toGeoJson';

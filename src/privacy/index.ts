export * from './anonymise';
export * from './drawZone';
export * from './insideZone';
export * from './keepFixes';
export * from './routeExtent';

import { bezierSpline, lineString, length as turfLength } from '@turf/turf';
import { routeFromGeoJson, routeToGeoJson } from 'datumline';

// A Feature that Turf made is a route; a route is Features for Turf. Turf measures on a sphere, routes on the ellipsoid.
const corners = [[5, 60], [5.004, 60.002], [5.01, 60]]; // biome-ignore format: one line
const route = routeFromGeoJson(bezierSpline(lineString(corners)), { name: 'bend' });
const [feature] = routeToGeoJson(route).features;
console.log(`turf: ${route.length.toFixed(1)} m, by Turf ${turfLength(feature, { units: 'meters' }).toFixed(1)} m`);

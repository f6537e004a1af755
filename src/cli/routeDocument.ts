import { writeGpx, writeKml } from '../formats';
import type { Route } from '../model';

/** A route as a document of XML. */
export const routeDocument = (route: Route, format: 'gpx' | 'kml'): string =>
  format === 'gpx' ? writeGpx(route) : writeKml(route);

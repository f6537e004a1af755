import { assessCases } from './assessCases';
import { formatsCases } from './formatsCases';
import type { GrowthCase } from './GrowthCase';
import { geodesyCases } from './geodesyCases';
import { metricsCases } from './metricsCases';
import { reportCases } from './reportCases';
import { routeCases } from './routeCases';
import { snapCases } from './snapCases';

/** Every case, room by room. */
export const cases: readonly GrowthCase[] = [
  ...geodesyCases,
  ...routeCases,
  ...snapCases,
  ...metricsCases,
  ...formatsCases,
  ...assessCases,
  ...reportCases,
];

/**
 * What users can call that takes the same time whatever it is given, or whose time is counted where it ends: the steps of a
 * builder note down what `build` then does. A test holds that everything else has a case.
 */
export const sizeless: readonly string[] = [
  ...['inverse', 'direct', 'interpolate', 'intersection', 'pointToGeodesic', 'pointToSegment'],
  ...['crossTrackDistance', 'alongTrackDistance', 'localPlane', 'localPlane.toPlane', 'localPlane.toPosition'],
  ...['start', 'lineTo', 'lineBy', 'arc', 'moveOver', 'uTurn', 'section', 'endSection', 'mark', 'provenance'].map(
    (step) => `routeBuilder.${step}`,
  ),
  ...['routeBuilder', 'routeBuilder.follow', 'routeBuilder.laps', 'routeBuilder.outAndBack', 'drawZone'],
]; // biome-ignore format: names in rows

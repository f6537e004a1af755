import type { Feature } from 'geojson';
import { likelyWord, type RouteWarning } from '../model';
import { isKnownProperty, knownProperties, type LegProperties } from './legProperties';

type DrawingWarning = Pick<RouteWarning, 'reason' | 'message'>;

/** What a feature drawn in a map editor likely says otherwise than it was meant. */
export function drawingWarnings(feature: Feature, known: LegProperties, number: number): DrawingWarning[] {
  const given = (feature.properties ?? {}) as Record<string, unknown>;
  const named = known.section ?? known.name;
  const about = `Feature ${number}${named === undefined ? '' : ` (“${named}”)`}`;
  const warnings: DrawingWarning[] = [];
  for (const [key, value] of Object.entries(given)) {
    if (isKnownProperty(key) || value === null || value === '') continue;
    const word = likelyWord(key, knownProperties);
    // beside the word itself another is another
    if (word === undefined || (given[word] ?? '') !== '') continue;
    warnings.push({ reason: 'misspelt-property', message: `${about} has a property “${key}”: is “${word}” meant?` });
  }
  const { type } = feature.geometry;
  if (type === 'LineString' || type === 'MultiLineString') {
    if (known.side !== undefined && !known.offset) {
      const message = `${about} states a side but no offset: the line itself is taken.`;
      warnings.push({ reason: 'half-given', message });
    }
  } else if ((type === 'Polygon' || type === 'MultiPolygon') && named === undefined) {
    const message = `${about} is an area without a name: no section is made of it. Give it a “section”.`;
    warnings.push({ reason: 'unnamed-area', message });
  }
  return warnings;
}

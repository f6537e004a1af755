import type { Feature, GeoJSON } from 'geojson';
import { parseDocument } from './parseDocument';
import type { GivenFile } from './Task';

/** Positions that are handed over at once, about. */
const SLICE = 20_000;

/**
 * The GeoJSON in a file; the features of a collection are handed over before it, some after the other.
 *
 * @throws {Error} naming the file that holds none
 */
export async function readSurroundings(
  { path, file }: GivenFile,
  handOver: (features: readonly Feature[]) => void,
): Promise<GeoJSON> {
  const text = await file.text();
  const json = parseDocument(text, path) as GeoJSON | string | null;
  if (
    typeof json !== 'object' ||
    json === null ||
    (!['FeatureCollection', 'Feature'].includes(json.type) && !('coordinates' in json))
  ) {
    throw new Error(`${path} must be GeoJSON, not ${text.slice(0, 40)}`);
  }
  if (json.type !== 'FeatureCollection' || !Array.isArray(json.features)) return json;
  // a position is twenty characters or more
  const parts = Math.max(1, Math.ceil(text.length / 20 / SLICE));
  const each = Math.max(1, Math.ceil(json.features.length / parts));
  for (let i = 0; i < json.features.length; i += each) handOver(json.features.slice(i, i + each));
  return { ...json, features: [] };
}

import { readFile } from 'node:fs/promises';
import type { GeoJSON } from 'geojson';
import { type Area, areasFromGeoJson } from '../areas';
import { explain } from './explain';
import { readJson } from './readJson';

/** The areas in a GeoJSON file, each polygon stating its kind. */
export async function readAreas(file: string): Promise<Area[]> {
  try {
    return areasFromGeoJson(readJson(await readFile(file, 'utf8'), file) as GeoJSON);
  } catch (error) {
    throw explain(error, file);
  }
}

import { readFile } from 'node:fs/promises';
import type { GeoJSON } from 'geojson';
import { checkSurroundings } from '../report';
import { explain } from './explain';
import { readJson } from './readJson';

/** What is drawn under the plan, from a GeoJSON file. */
export async function readSurroundings(file: string): Promise<GeoJSON> {
  try {
    const document = readJson(await readFile(file, 'utf8'), file);
    checkSurroundings(document, 'surroundings');
    return document;
  } catch (error) {
    throw explain(error, file);
  }
}

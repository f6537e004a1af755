import { readFile } from 'node:fs/promises';
import type { FeatureCollection, Position } from 'geojson';
import type { Route, RouteRecipe } from '../model';
import { routeFromGeoJson, routeFromLine, routeFromRecipe } from '../route';
import { cannot } from './CommandError';
import { explain } from './explain';
import { looksLikeJson, readJson } from './readJson';

/** The route in a file: a recipe, legs drawn as GeoJSON, or the one line of a GPX or KML file. Given what is in it, it is not read. */
export async function readRoute(file: string, given?: Buffer): Promise<Route> {
  try {
    const data = given ?? (await readFile(file));
    if (data.length === 0) throw cannot(file, 'an empty file');
    const text = data.subarray(0, 3).every((byte) => byte !== 0) ? data.toString('utf8') : '';
    if (!looksLikeJson(text)) return await routeFromOneLine(data, file);
    const document = readJson(text, file) as Record<string, unknown>;
    if (Array.isArray(document.steps)) return routeFromRecipe(document as unknown as RouteRecipe);
    if (Array.isArray(document.runs)) throw cannot(file, 'a test file, not a route');
    if (typeof document.type !== 'string') throw cannot(file, 'neither a recipe (it has no "steps") nor GeoJSON');
    if (document.type === 'FeatureCollection') return routeFromDrawing(document as unknown as FeatureCollection);
    return await routeFromOneLine(text, file);
  } catch (error) {
    throw explain(error, file);
  }
}

/** The line in a file, for a decoy or a centreline. */
export async function readLine(file: string): Promise<readonly Position[]> {
  try {
    // a recipe waits for no reader
    return (await import('./oneLine')).oneLine(await readFile(file), file).positions;
  } catch (error) {
    throw explain(error, file);
  }
}

async function routeFromOneLine(data: string | Uint8Array, file: string): Promise<Route> {
  const { name, positions } = (await import('./oneLine')).oneLine(data, file);
  return routeFromLine(positions, { name });
}

/** Our own writers add the corridor's edges beside the line; a line alone gives the route its name. */
function routeFromDrawing(collection: FeatureCollection): Route {
  if (!Array.isArray(collection.features)) return routeFromGeoJson(collection);
  const isEdge = (name: unknown) => typeof name === 'string' && /, (left|right) edge$/.test(name);
  const features = collection.features.filter((feature) => !isEdge(feature?.properties?.name));
  const route = routeFromGeoJson({ ...collection, features });
  const lines = features.filter((feature) => feature?.geometry?.type === 'LineString');
  const name: unknown = lines[0]?.properties?.name;
  return route.name === undefined && lines.length === 1 && typeof name === 'string'
    ? routeFromGeoJson({ ...collection, features }, { name })
    : route;
}

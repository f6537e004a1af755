import { readFile } from 'node:fs/promises';
import { type Route, type RouteRecipe, routeFromLine, routeFromRecipe } from '../route';
import { cannot } from './CommandError';
import { explain } from './explain';
import { looksLikeJson, readJson } from './readJson';

/** The route in a file: a recipe, GeoJSON, or the one line of a GPX or KML file. */
export async function readRoute(file: string): Promise<Route> {
  try {
    const text = await readFile(file, 'utf8');
    if (!looksLikeJson(text)) throw cannot(file, 'not a recipe or GeoJSON');
    const document = readJson(text, file) as Record<string, unknown>;
    if (Array.isArray(document.steps)) return routeFromRecipe(document as unknown as RouteRecipe);
    if (Array.isArray(document.runs)) throw cannot(file, 'a test file, where a route is needed');
    return routeFromLine(document as unknown as Parameters<typeof routeFromLine>[0]);
  } catch (error) {
    throw explain(error, file);
  }
}

import {
  type DrawnRoute,
  InputError,
  type Route,
  readLines,
  routeFromGeoJson,
  routeFromLine,
  routeFromRecipe,
} from 'datumline';
import type { FeatureCollection } from 'geojson';
import type { Drawing } from './Drawing';

/** What a document says, as a drawing. */
export interface ReadDocument {
  readonly drawing: Drawing;
  /** What should be looked at and is of the document, not of the line in it. */
  readonly notes: readonly string[];
}

/**
 * The line in a document, as the command reads it: a recipe, legs drawn as GeoJSON, or the one line of a GPX or KML file.
 *
 * @throws {InputError} what is none of these, or holds several lines where one is asked for
 */
export function readDocument(text: string, name: string): ReadDocument {
  const route = routeIn(text, name);
  if (/"steps"/.test(text) && !/"features"/.test(text)) return { drawing: route.recipe, notes: [] };
  // told of the document alone: the recipe builds without them
  const ofLine = new Set(routeFromRecipe(route.recipe).warnings.map(({ message }) => message));
  const notes = route.warnings.map(({ message }) => message).filter((message) => !ofLine.has(message));
  return { drawing: route.recipe, notes };
}

function routeIn(text: string, name: string): Route {
  if (!/^[\s\uFEFF]*[{[]/.test(text)) return oneLine(text, name);
  const document = parsed(text, name);
  const { version } = document;
  if (typeof version === 'number' && version > 1) {
    refuse(name, 'a document of version 1', `version ${version}`, 'A newer version of this page or command wrote it');
  }
  if (Array.isArray(document.steps)) return routeFromRecipe(document as unknown as Drawing);
  if (Array.isArray(document.runs)) refuse(name, 'a line, a recipe or GeoJSON', 'a test with its runs');
  if (document.type === 'FeatureCollection') return fromDrawing(document as unknown as FeatureCollection);
  if (typeof document.type === 'string') return oneLine(text, name);
  return refuse(name, 'a recipe, which has "steps", or GeoJSON', Object.keys(document).slice(0, 5).join(', '));
}

function parsed(text: string, name: string): Record<string, unknown> {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return refuse(name, 'JSON', text.slice(0, 40), String((error as Error).message));
  }
}

function oneLine(text: string, name: string): Route {
  // the edges of a corridor, as the command writes them beside the line
  const lines = readLines(text).filter((line) => !isEdge(line.name));
  if (lines.length !== 1) {
    refuse(
      name,
      'one line',
      `${lines.length}: ${lines
        .slice(0, 5)
        .map((line) => line.name)
        .join(', ')}`,
    );
  }
  return routeFromLine(lines[0].positions, { name: lines[0].name });
}

function fromDrawing(collection: FeatureCollection): Route {
  if (!Array.isArray(collection.features)) return routeFromGeoJson(collection as DrawnRoute);
  const features = collection.features.filter((feature) => !isEdge(feature?.properties?.name));
  const route = routeFromGeoJson({ ...collection, features });
  const lines = features.filter((feature) => feature?.geometry?.type === 'LineString');
  const title: unknown = lines[0]?.properties?.name;
  return route.name === undefined && lines.length === 1 && typeof title === 'string'
    ? routeFromGeoJson({ ...collection, features }, { name: title })
    : route;
}

function isEdge(name: unknown): boolean {
  return typeof name === 'string' && /, (left|right) edge$/.test(name);
}

function refuse(argument: string, rule: string, value: string, hint?: string): never {
  throw new InputError({ reason: 'unreadable', argument, rule, value, hint });
}

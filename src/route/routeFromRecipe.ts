import type { Position } from 'geojson';
import { InputError } from '../errors';
import { densify } from '../geodesy/densify';
import { Geodesic, WGS84 } from '../geodesy/ellipsoid';
import { checkNumber } from '../internal/checkNumber';
import { checkOptions, type OptionKeys } from '../internal/checkOptions';
import { checkPosition } from '../internal/checkPosition';
import { unwrapLongitude } from '../internal/longitude';
import { Sum } from '../internal/Sum';
import type { Route, Section } from './Route';
import type { RouteOptions, RouteRecipe } from './RouteRecipe';

const optionKeys: OptionKeys<RouteOptions> = { name: true, maxSpacing: true };

/**
 * The route that a recipe describes: the same recipe gives the identical route.
 *
 * @throws {InputError} naming the step by its number
 */
export function routeFromRecipe(recipe: RouteRecipe): Route {
  checkOptions(recipe.options, optionKeys);
  const { name, maxSpacing = 5 } = recipe.options;
  checkNumber(maxSpacing, 'options.maxSpacing', { above: 0 });
  const vertices: Position[] = [];
  const opened: { vertex: number; step: { name: string; halfWidth?: number; environment?: string } }[] = [];
  recipe.steps.forEach((step, i) => {
    const argument = `steps[${i}] ${step.call}`;
    switch (step.call) {
      case 'start':
        if (vertices.length > 0) {
          throw new InputError({ reason: 'misplaced', argument, rule: 'the first leg', value: step.position });
        }
        checkPosition(step.position, `${argument} position`);
        vertices.push([...step.position]);
        break;
      case 'lineTo':
        if (vertices.length === 0) {
          throw new InputError({ reason: 'misplaced', argument, rule: 'after start', value: step.position });
        }
        checkPosition(step.position, `${argument} position`);
        vertices.push(...densify([vertices[vertices.length - 1], step.position], { maxSpacing }).slice(1));
        break;
      case 'section':
        if (opened.some((other) => other.step.name === step.name)) {
          throw new InputError({ reason: 'misplaced', argument, rule: 'a name not used before', value: step.name });
        }
        if (step.halfWidth !== undefined) checkNumber(step.halfWidth, `${argument} halfWidth`, { above: 0 });
        opened.push({ vertex: Math.max(vertices.length - 1, 0), step });
        break;
    }
  });
  if (vertices.length < 2) {
    throw new InputError({
      reason: 'too-few',
      argument: 'route',
      rule: 'a line of at least 2 points',
      value: vertices,
    });
  }
  const n = vertices.length;
  const lon = new Float64Array(n);
  const lat = new Float64Array(n);
  const alongTrack = new Float64Array(n);
  const sum = new Sum();
  for (let i = 0; i < n; i++) {
    lon[i] = i === 0 ? vertices[i][0] : unwrapLongitude(vertices[i][0], lon[i - 1]);
    lat[i] = vertices[i][1];
    if (i > 0) sum.add(WGS84.Inverse(lat[i - 1], lon[i - 1], lat[i], lon[i], Geodesic.DISTANCE).s12!);
    alongTrack[i] = sum.value;
  }
  const sections = opened.map(({ vertex, step }, k): Section => {
    const next = opened[k + 1]?.vertex ?? n - 1;
    return {
      name: step.name,
      from: alongTrack[vertex],
      to: alongTrack[next],
      ...(step.halfWidth === undefined ? {} : { halfWidth: step.halfWidth }),
      ...(step.environment === undefined ? {} : { environment: step.environment }),
    };
  });
  return Object.freeze({
    ...(name === undefined ? {} : { name }),
    lon,
    lat,
    alongTrack,
    length: alongTrack[n - 1],
    sections,
    marks: [],
    lateral95: new Float64Array(n).fill(Number.NaN),
    warnings: [],
    recipe,
  });
}

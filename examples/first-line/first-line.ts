/**
 * Authors a reference line from a file drawn in a map editor, looks at what it says, and replaces one leg after the fact.
 * The harbour is invented: there is no land within hundreds of kilometres. Run with `npx tsx examples/first-line/first-line.ts`.
 */
import { readFileSync } from 'node:fs';
import { pointAt, type RecipeStep, type Route, routeFromGeoJson, routeFromRecipe } from 'datumline';

const drawn = JSON.parse(readFileSync(new URL('first-line.geojson', import.meta.url), 'utf8'));
const route = routeFromGeoJson(drawn);
show(route);

// On the day the runner stayed on the other side of market street. The recipe is plain JSON: find the leg, replace it.
const steps = route.recipe.steps.map((step): RecipeStep => (isMarketStreet(step) ? { ...step, side: 'left' } : step));
const run = routeFromRecipe({ ...route.recipe, steps });
console.log(`\nOn the other side of market street the line is ${(run.length - route.length).toFixed(2)} m longer.`);

function isMarketStreet(step: RecipeStep): step is Extract<RecipeStep, { call: 'follow' }> {
  return step.call === 'follow' && step.metres === 4.5;
}

function show({ name, length, sections, marks, warnings, ...rest }: Route): void {
  console.log(`${name}: ${length.toFixed(1)} m, ${rest.lon.length} vertices`);
  for (const { name: section, lap, from, to } of sections) {
    console.log(
      `  ${from.toFixed(1).padStart(7)} – ${to.toFixed(1).padStart(7)}  ${section}${lap ? `, lap ${lap}` : ''}`,
    );
  }
  for (const mark of marks) {
    const { azimuth } = pointAt(route, mark.alongTrack);
    console.log(`  ${mark.alongTrack.toFixed(1).padStart(7)}  ${mark.name}, heading ${azimuth.toFixed(0)}°`);
  }
  for (const { reason, message } of warnings) console.log(`  look at: ${reason}: ${message}`);
}

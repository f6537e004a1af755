import { direct, pointAt, type RecipeStep } from 'datumline';
import type { Position } from 'geojson';
import { freeSectionName } from './cutSection';
import type { Desk } from './Desk';

/** What can be added besides a point, in words. */
export const newSteps: readonly { readonly call: string; readonly label: string }[] = [
  { call: 'lineTo', label: 'a straight leg, 50 m ahead' },
  { call: 'lineBy', label: 'a straight leg by direction and distance' },
  { call: 'arc', label: 'an arc' },
  { call: 'uTurn', label: 'a turn round' },
  { call: 'follow', label: 'a line to run along or beside' },
  { call: 'moveOver', label: 'over to one side' },
  { call: 'section', label: 'the beginning of a section' },
  { call: 'endSection', label: 'the end of the section' },
  { call: 'mark', label: 'a mark here' },
  { call: 'provenance', label: 'where what follows was drawn from' },
];

/** A step of a kind with numbers to begin with, at the end of the line where it needs a place. */
export function newStep(call: string, desk: Desk): RecipeStep {
  const drawing = desk.store.drawing.value;
  const route = desk.store.laid.value?.route;
  const end = route && pointAt(route, route.length);
  const here: Position = end
    ? [end.position[0], end.position[1]]
    : (drawing.steps.flatMap((step) => ('position' in step ? [step.position] : [])).at(-1) ?? desk.middle.value);
  const azimuth = end?.azimuth ?? 90;
  const ahead = (metres: number) =>
    direct(here, azimuth, metres).position.map((degrees) => Math.round(degrees * 1e9) / 1e9);
  switch (call) {
    case 'lineBy':
      return { call, azimuth: Math.round(azimuth), distance: 50 };
    case 'arc':
      return { call, turn: 'left', radius: 20, sweep: 90 };
    case 'uTurn':
      return { call, side: 'left', width: 6 };
    case 'follow':
      return { call, line: [ahead(0), ahead(50)] };
    case 'moveOver':
      return { call, side: 'right', metres: 4, over: 20 };
    case 'section':
      return { call, name: freeSectionName(drawing) };
    case 'endSection':
      return { call };
    case 'mark':
      return { call, name: `mark ${drawing.steps.filter((step) => step.call === 'mark').length + 1}` };
    case 'provenance':
      return { call, source: 'not yet stated' };
    default:
      return { call: 'lineTo', position: ahead(50) };
  }
}

import type { RecipeStep } from 'datumline';
import type { Position } from 'geojson';

/** What a step says, in a few words. */
export function describeStep(step: RecipeStep): string {
  switch (step.call) {
    case 'start':
      return `Start at ${shownPosition(step.position)}`;
    case 'lineTo':
      return `Straight to ${shownPosition(step.position)}${step.cornerRadius ? `, corner of ${step.cornerRadius} m` : ''}`;
    case 'lineBy':
      return `Straight ${shownMetres(step.distance)} towards ${round(step.azimuth, 1)}°`;
    case 'arc':
      return `Arc to the ${step.turn}, radius ${step.radius} m, by ${step.sweep}°`;
    case 'follow': {
      const beside = step.metres && step.side ? `, ${step.metres} m to its ${step.side}` : '';
      return `Along a line of ${step.line.length} points${beside}`;
    }
    case 'moveOver':
      return `Over to the ${step.side} by ${step.metres} m within ${step.over} m`;
    case 'uTurn':
      return `Turn round to the ${step.side}, ${step.width} m wide`;
    case 'section':
      return `Section “${step.name}” ${step.inside ? 'in an area' : step.from === undefined ? 'begins' : `from ${step.from} to ${step.to} m`}`;
    case 'endSection':
      return 'The section ends';
    case 'mark':
      return `Mark “${step.name}”`;
    case 'laps':
      return `${step.count} ${step.count === 1 ? 'lap' : 'laps'} of:`;
    case 'outAndBack': {
      const { returnBeside } = step;
      return returnBeside
        ? `Out and back, ${returnBeside.metres} m to the ${returnBeside.side}:`
        : 'Out and back on one line:';
    }
    case 'provenance':
      return `From here on drawn from: ${step.source ?? 'no stated source'}${step.lateral95 === undefined ? '' : `, known to ${step.lateral95} m`}`;
    case 'offset':
      return `Beside another line, ${step.metres} m to its ${step.side}`;
    case 'slice':
      return `A part of another line, ${step.from} to ${step.to} m`;
    case 'reverse':
      return 'Another line, the other way';
    case 'join':
      return 'Two other lines, one after the other';
  }
}

/** A position to a metre or so: longitude, latitude. */
export function shownPosition([longitude, latitude]: Position): string {
  return `${longitude.toFixed(5)}, ${latitude.toFixed(5)}`;
}

/** A length as one would say it. */
export function shownMetres(metres: number): string {
  return metres >= 10000 ? `${(metres / 1000).toFixed(2)} km` : `${metres.toFixed(1)} m`;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}

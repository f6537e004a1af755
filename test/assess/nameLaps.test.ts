import { assess, combine, pointAt, type Route, routeBuilder } from 'datumline';
import { expect, test } from 'vitest';
import { companionOffsets } from '../../src/assess/companionOffsets';
import { nameLaps } from '../../src/assess/nameLaps';
import { RouteGrid } from '../../src/assess/RouteGrid';
import { recordingOf } from './recordingOf';

const route = routeBuilder()
  .start([2, 61])
  .section('way there')
  .lineBy({ azimuth: 0, distance: 100 })
  .laps(2, (lap) =>
    lap
      .section('oval')
      .lineBy({ azimuth: 0, distance: 100 })
      .arc({ turn: 'left', radius: 30, sweep: 180 })
      .lineBy({ azimuth: 180, distance: 100 })
      .arc({ turn: 'left', radius: 30, sweep: 180 }),
  )
  .build();

test('each lap of a section has rows of its own, in an assessment and over runs', () => {
  const recording = recordingOf(
    Array.from({ length: Math.ceil(route.length / 3) }, (_, i) => pointAt(route, 3 * i).position as [number, number]),
  );
  const assessment = assess(route, [recording]);
  const names = ['way there', 'oval, lap 1', 'oval, lap 2', null];
  expect(assessment.rows.map(({ section }) => section)).toEqual(names);
  expect(combine([assessment]).rows.map(({ section }) => section)).toEqual(names);
  expect(assessment.lapRepeatability.map(({ section }) => section)).toEqual(['oval']);
});

test('naming laps asks for no warnings, and keeps them to be asked for', () => {
  let asked = 0;
  const counting = Object.defineProperties({} as Route, {
    ...Object.getOwnPropertyDescriptors(route),
    warnings: {
      enumerable: true,
      get: () => {
        asked++;
        return route.warnings;
      },
    },
  });
  const named = nameLaps(counting);
  expect(named.sections.map(({ name }) => name)).toEqual(['way there', 'oval, lap 1', 'oval, lap 2']);
  expect(asked).toBe(0);
  expect(named.warnings).toBe(route.warnings);
  expect(asked).toBe(1);
  expect({ ...named }).toEqual({ ...route, sections: named.sections });
});

test('a line beside the route is made without its warnings', () => {
  const grid = new RouteGrid(route, []);
  expect(Object.keys(companionOffsets(grid, route).line)).toEqual(['lon', 'lat', 'alongTrack']);
});

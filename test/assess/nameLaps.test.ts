import { assess, combine, pointAt, routeBuilder } from 'datumline';
import { expect, test } from 'vitest';
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

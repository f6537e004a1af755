import { direct, routeBuilder } from 'datumline';

const start: [number, number] = [2.1, 61.4];

/** An invented quay of 600 m over open sea in two sections, and the places to wear a receiver at. */
export const invented = {
  route: routeBuilder({ name: 'invented quay' })
    .start(start)
    .section('west', { halfWidth: 6 })
    .lineTo(direct(start, 90, 300).position)
    .section('east', { halfWidth: 6 })
    .lineTo(direct(start, 90, 600).position)
    .build(),
  left: 'left wrist',
  right: 'right wrist',
};

import { along, lineChunk, lineOffset, lineString } from '@turf/turf';
import { direct, inverse } from 'datumline/geodesy';
import { offsetRoute, pointAt, routeBuilder } from 'datumline/route';
import type { Position } from 'geojson';
import { EdgeFeet } from '../src/geodesy/EdgeFeet';
import { Geodesic, WGS84 } from '../src/geodesy/ellipsoid';
import { seeded, wanderingLine } from '../test/support/randomLine';
import type { Bench } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

/** Milliseconds of one geodesic by geographiclib, distance only, on the machine on which the promises were made. */
const GEODESIC_THERE = 1e-3;

const SPACING = 5;
const BESIDE = 3;

/** A route of 100 km built leg by leg, places on it, and the line beside it. */
export const run: Bench = ({ smoke }) => {
  const rounds = smoke ? 1 : 15;
  const random = seeded(7);
  const corners = wanderingLine(random, { start: [11, 48], count: smoke ? 11 : 1026, step: 200, turn: 20 });
  const author = () => {
    const builder = routeBuilder({ maxSpacing: SPACING, lateral95: 0.5 }).start(corners[0]);
    for (const corner of corners.slice(1)) builder.lineTo(corner);
    return builder.build();
  };
  const route = author();
  const edges = route.lon.length - 1;
  const places = Float64Array.from({ length: smoke ? 50 : 20_000 }, () => random() * route.length);
  const drawn = lineString(corners);
  const vertices = Array.from(route.lon, (lon, i): Position => [lon, route.lat[i]]);
  const few = places.slice(0, smoke ? 2 : 100);

  /** The calls that the along-track of every vertex takes, bare: one geodesic an edge. */
  const geodesics = () => {
    let sum = 0;
    for (let i = 0; i < edges; i++) {
      sum += WGS84.Inverse(route.lat[i], route.lon[i], route.lat[i + 1], route.lon[i + 1], Geodesic.DISTANCE).s12!;
    }
    return sum;
  };
  const times = medianTime(
    {
      build: () => author().length,
      chunk: () => lineChunk(drawn, SPACING, { units: 'meters' }).features.length,
      geodesics,
      offset: () => offsetRoute(route, { side: 'right', metres: BESIDE }).length,
      turfOffset: () => lineOffset(lineString(vertices), BESIDE, { units: 'meters' }).geometry.coordinates.length,
    },
    smoke ? 1 : 5, // Turf takes seconds a round
  );
  const placeTimes = medianTime(
    {
      pointAt: () => places.reduce((sum, place) => sum + pointAt(route, place).azimuth, 0),
      along: () =>
        few.reduce((sum, place) => sum + along(drawn, place, { units: 'meters' }).geometry.coordinates[0], 0),
    },
    rounds,
  );

  // Errors against the exact geodesics: of a place, and of along-track at the end.
  const exact = exactPlaces(corners);
  const from = (positionOf: (place: number) => Position) =>
    `${few.reduce((most, place) => Math.max(most, inverse(exact(place), positionOf(place)).distance), 0).toExponential(0)} m`;
  const yardstick = { here: times.geodesics / edges, there: GEODESIC_THERE };
  const beside = offsetRoute(route, { side: 'right', metres: BESIDE });
  const checked = Math.min(edges, 500);
  const offsetError = (line: readonly Position[]) => {
    const feet = new EdgeFeet(route.lon, route.lat);
    let most = 0;
    for (const [lon, lat] of line.slice(0, checked)) {
      feet.moveTo(lon, lat);
      let nearest = Number.POSITIVE_INFINITY;
      for (let edge = 0; edge < Math.min(edges, 2 * checked); edge++) nearest = Math.min(nearest, feet.measure(edge));
      most = Math.max(most, Math.abs(nearest - BESIDE));
    }
    return `${most.toExponential(0)} m`;
  };
  const kilometres = Math.round(route.length / 1000);
  return [
    {
      what: `route of ${kilometres} km, ${corners.length - 1} legs, built at ${SPACING} m spacing`,
      ...promised(times.build, 60, { here: times.geodesics, there: GEODESIC_THERE * edges }),
      error: `${Math.abs(route.length - geodesics()).toExponential(0)} m of length`,
      peers: [
        {
          name: 'Turf lineChunk',
          time: showTime(times.chunk),
          error: from((at) => along(drawn, at, { units: 'meters' }).geometry.coordinates),
        },
        { name: 'geographiclib, its distances only', time: showTime(times.geodesics) },
      ],
    },
    {
      what: `pointAt on ${edges} edges`,
      ...promised(placeTimes.pointAt / places.length, 300e-6, yardstick),
      error: from((at) => pointAt(route, at).position),
      peers: [
        {
          name: 'Turf along',
          time: showTime(placeTimes.along / few.length),
          error: from((at) => along(drawn, at, { units: 'meters' }).geometry.coordinates),
        },
      ],
    },
    {
      what: `offsetRoute by ${BESIDE} m, ${edges} edges`,
      ...promised(times.offset, 50),
      error: offsetError(Array.from(beside.lon, (lon, i) => [lon, beside.lat[i]])),
      peers: [
        {
          name: 'Turf lineOffset',
          time: showTime(times.turfOffset),
          error: offsetError(lineOffset(lineString(vertices), BESIDE, { units: 'meters' }).geometry.coordinates),
        },
      ],
    },
  ];
};

/** The place so many metres along a line, by the exact geodesic of its leg. */
function exactPlaces(corners: readonly Position[]): (place: number) => Position {
  const legs = corners.slice(1).map((to, i) => ({ from: corners[i], ...inverse(corners[i], to) }));
  return (place) => {
    let left = place;
    for (const { from, initialAzimuth, distance } of legs) {
      if (left <= distance) return direct(from, initialAzimuth, left).position;
      left -= distance;
    }
    return corners[corners.length - 1];
  };
}

import { type Area, areasFromGeoJson, assess, type Route } from 'datumline';
import { reportHtml } from 'datumline/report';
import type { FeatureCollection, Position } from 'geojson';
import { Ground } from '../src/areas';
import { findPassages } from '../src/assess/findPassages';
import { groundPassed } from '../src/assess/groundPassed';
import { placeEntries } from '../src/assess/placeEntries';
import { RouteGrid } from '../src/assess/RouteGrid';
import { testEntries } from '../src/assess/testEntries';
import { finish } from '../src/model';
import { seeded } from '../test/support/randomLine';
import type { Bench } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';
import { windingRide } from './support/windingRide';

/** So many hexagonal houses, 5 m from the middle to a corner, one in each cell of a grid over the box 500 m about a route. */
function houses(
  { lon, lat }: Pick<Route, 'lon' | 'lat'>,
  count: number,
  naming: 'together' | 'each' = 'together',
): FeatureCollection {
  const random = seeded(19);
  const north = 111_320;
  const east = north * Math.cos((lat[0] * Math.PI) / 180);
  const [west, right] = [Math.min(...lon) - 500 / east, Math.max(...lon) + 500 / east];
  const [south, up] = [Math.min(...lat) - 500 / north, Math.max(...lat) + 500 / north];
  const rows = Math.round(Math.sqrt((count * (up - south) * north) / ((right - west) * east)));
  const columns = Math.ceil(count / rows);
  const features = Array.from({ length: count }, (_, i) => {
    const x = west + (((i % columns) + 0.3 + 0.4 * random()) / columns) * (right - west);
    const y = south + ((Math.floor(i / columns) + 0.3 + 0.4 * random()) / rows) * (up - south);
    const ring = Array.from({ length: 6 }, (_, k): Position => {
      const angle = (k * Math.PI) / 3;
      return [x + (5 * Math.cos(angle)) / east, y + (5 * Math.sin(angle)) / north];
    });
    return {
      type: 'Feature' as const,
      properties: { area: naming === 'together' ? 'houses' : `house ${i}`, kind: 'impossible' },
      geometry: { type: 'Polygon' as const, coordinates: [[...ring, ring[0]]] },
    };
  });
  return { type: 'FeatureCollection', features };
}

/** Polygons about a route: reading them, their index, the figures of six recordings, and what they add to the report. */
export const run: Bench = ({ smoke }) => {
  const { route, recordings } = windingRide(smoke ? 500 : 10_000);
  const count = smoke ? 500 : 50_000;
  const collection = houses(route, count);
  const areas = areasFromGeoJson(collection);
  const grid = new RouteGrid(route, []);
  const { placements } = finish(placeEntries(grid, route, testEntries(recordings), 'shared'));
  const index = (given: readonly Area[]) => new Ground(given, 'areas', route);
  const figures = (ground: Ground) =>
    placements.reduce((sum, { placed }) => {
      if (!placed) return sum;
      const passed = groundPassed(grid, placed, ground);
      return sum + findPassages(grid, 'one', placed, passed, ground).length;
    }, 0);
  const ready = index(areas);
  const named = index(areasFromGeoJson(houses(route, count, 'each')));
  const fresh = Array.from({ length: 20 }, () => index(areas));
  const times = medianTime(
    {
      reading: () => areasFromGeoJson(collection).length,
      indexing: () => index(areas).index.areaOf.length,
      // what is found of an edge is kept: a ground that was asked before answers sooner
      figures: () => figures(fresh.pop() ?? ready),
      named: () => figures(named),
    },
    smoke ? 1 : 9,
  );
  const bytes = (html: string) => new TextEncoder().encode(html).length / 1e6;
  const bare = assess(route, recordings);
  const plain = bytes(reportHtml(bare));
  const grown = bytes(reportHtml(assess(route, recordings, { areas }))) - plain;
  const surroundings: FeatureCollection = {
    ...collection,
    features: collection.features.map((one) => ({ ...one, properties: { kind: 'house' } })),
  };
  const drawn = bytes(reportHtml(bare, { surroundings, credit: 'our own' })) - plain;
  return [
    { what: `index of ${count} polygons of 6 vertices, rings checked`, ...promised(times.indexing, 300) },
    {
      what: `figures and passages of 6 recordings of ${grid.route.length.toFixed(0)} m at 1 Hz in them`,
      ...promised(times.figures, 150),
    },
    { what: `the same, every polygon an area of its own name`, ours: showTime(times.named) },
    { what: `areasFromGeoJson of ${count} polygons`, ours: showTime(times.reading) },
    { what: `what they add to the report, at most 0.60 MB: ${grown.toFixed(2)} MB`, ours: 'n/a' },
    { what: `what they add as surroundings, at most 0.60 MB: ${drawn.toFixed(2)} MB`, ours: 'n/a' },
  ];
};

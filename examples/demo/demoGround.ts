import { direct, indexRoute, offsetRoute, pointAt, type Route, sliceRoute } from 'datumline';
import type { Feature, FeatureCollection, LineString, Polygon, Position } from 'geojson';

type Ground = FeatureCollection<Polygon | LineString> & { readonly licence: string };

const LICENCE = 'Invented for this demo; MIT licence';

/** Names of the houses along the lanes, in the order in which they are passed. */
const houses = (
  'net loft, rope store, smithy, salt house, cooperage, sail loft, tar house, bakery, school, chapel, ' +
  'boat house, weigh house, paint store, ice house, bell house, lamp store, hay barn, fish hall, old mill, drying loft'
).split(', ');

/** Metres between the line and the walls of the lanes, and how large a house is, along the lane and away from it. */
const LANE = 4.5;
const [WIDE, DEEP] = [9, 11];

/** Metres of road in one polygon; those of one name are one area, and where they meet there is no edge. */
const PIECE = 40;

/** The place so many metres along the demo's line and aside of it, right positive. */
function beside(route: Route, alongTrack: number, aside: number): Position {
  const { position, azimuth } = pointAt(route, alongTrack);
  return rounded(direct(position, azimuth + 90, aside).position);
}

const rounded = ([longitude, latitude]: Position): Position => [
  Number(longitude.toFixed(7)),
  Number(latitude.toFixed(7)),
];

const polygon = (properties: Record<string, unknown>, ring: readonly Position[]): Feature<Polygon> => ({
  type: 'Feature',
  properties,
  geometry: { type: 'Polygon', coordinates: [[...ring, ring[0]]] },
});

/** A strip beside the first leg, made endless: from so far right of it to so far left. */
function alongQuay(route: Route, from: number, to: number, right: number, left: number): Position[] {
  const { position, azimuth } = pointAt(route, 0);
  const corner = (along: number, aside: number) =>
    rounded(direct(direct(position, azimuth, along).position, azimuth + 90, aside).position);
  return [corner(from, right), corner(to, right), corner(to, -left), corner(from, -left)];
}

/** Where the rider can have been, and where not: the quay and the roads; the fjord and the houses along the lanes. */
export function demoAreas(route: Route): Ground {
  const [quay, ...roads] = route.sections;
  const leg = (quay.to - quay.from - 7) / 2;
  // a second lap runs over the first; a strip of the whole road would cross itself where that comes near itself
  const road = roads
    .filter(({ lap = 1 }) => lap === 1)
    .flatMap(({ from, to, halfWidth }) => {
      const count = Math.ceil((to - from) / PIECE);
      return Array.from({ length: count }, (_, k) => {
        const cut = (share: number) => from + (share * (to - from)) / count;
        const part = sliceRoute(route, cut(k), cut(k + 1));
        const edge = (side: 'left' | 'right') => {
          const { lon, lat } = offsetRoute(part, { side, metres: halfWidth! });
          return Array.from(lon, (longitude, i) => rounded([longitude, lat[i]]));
        };
        return polygon({ area: 'roads', kind: 'allowed', doubt95: 0.3 }, [...edge('left'), ...edge('right').reverse()]);
      });
    });
  return {
    type: 'FeatureCollection',
    licence: LICENCE,
    features: [
      polygon({ area: 'quay', kind: 'allowed', doubt95: 0.3 }, alongQuay(route, -10, leg + 12, 5, 14)),
      ...road,
      polygon({ area: 'fjord', kind: 'impossible', doubt95: 0.3 }, alongQuay(route, -10, leg + 12, 60, -5)),
      ...lanesHouses(route).map((ring, i) => polygon({ area: houses[i], kind: 'impossible', doubt95: 0.3 }, ring)),
    ],
  };
}

/** Houses on both sides of the lanes, wherever there is room beside every leg. */
function lanesHouses(route: Route): Position[][] {
  const index = indexRoute(route);
  const lanes = route.sections.find(({ name }) => name === 'timber lanes')!;
  const found: Position[][] = [];
  for (let s = lanes.from + 8; s < lanes.to - 8 && found.length < houses.length; s += WIDE + 4) {
    for (const side of [-1, 1]) {
      const { position, azimuth } = pointAt(route, s);
      const corner = (along: number, aside: number) =>
        rounded(direct(direct(position, azimuth, along).position, azimuth + 90, side * aside).position);
      const ring = [
        corner(-WIDE / 2, LANE),
        corner(WIDE / 2, LANE),
        corner(WIDE / 2, LANE + DEEP),
        corner(-WIDE / 2, LANE + DEEP),
      ];
      const middle = corner(0, LANE + DEEP / 2);
      const places = [...ring, middle, corner(0, LANE + DEEP)];
      const isFree = places.every((place) => index.nearest(place)!.distance > LANE - 0.1);
      const touches = found.some((other) => other.some((place) => places.some((own) => near(place, own))));
      if (isFree && !touches) found.push(ring);
    }
  }
  return found;
}

/** Whether two places lie nearer to each other than a house is deep. */
function near([x0, y0]: Position, [x1, y1]: Position): boolean {
  return Math.hypot((x1 - x0) * 53_500, (y1 - y0) * 111_400) < 3;
}

/** What else there is to see: the fjord, woods, and the streets by their names. */
export function demoSurroundings(route: Route): Ground {
  const [quay] = route.sections;
  const leg = (quay.to - quay.from - 7) / 2;
  const woods = route.sections.find(({ name }) => name === 'spruce switchbacks')!;
  const ways = ['timber lanes', 'cliff road', 'spruce switchbacks'].map((name): Feature<LineString> => {
    const { from, to } = route.sections.find((section) => section.name === name)!;
    const places = Array.from({ length: Math.ceil((to - from) / 8) + 1 }, (_, i) => Math.min(to, from + 8 * i));
    const title = { 'timber lanes': 'Timber Lanes', 'cliff road': 'Cliff Road', 'spruce switchbacks': 'Spruce Way' }[
      name
    ];
    return {
      type: 'Feature',
      properties: { kind: 'way', name: title },
      geometry: { type: 'LineString', coordinates: places.map((s) => beside(route, s, 0)) },
    };
  });
  const middle = pointAt(route, (woods.from + woods.to) / 2).position;
  const wood = Array.from({ length: 24 }, (_, i) => rounded(direct(middle, -15 * i, i % 2 === 0 ? 150 : 130).position));
  return {
    type: 'FeatureCollection',
    licence: LICENCE,
    features: [
      polygon({ kind: 'water', name: 'fjord' }, alongQuay(route, -10, leg + 12, 400, -5)),
      polygon({ kind: 'green', name: 'spruce wood' }, wood),
      {
        type: 'Feature',
        properties: { kind: 'way', name: 'Long Quay' },
        geometry: { type: 'LineString', coordinates: [beside(route, 0, -4), beside(route, leg, -4)] },
      },
      ...ways,
    ],
  };
}

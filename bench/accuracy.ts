import { readFileSync, writeFileSync } from 'node:fs';
import CheapRuler from 'cheap-ruler';
import { direct, inverse, pointToSegment } from 'datumline/geodesy';
import type { Position } from 'geojson';
import { EdgeFeet } from '../src/geodesy/EdgeFeet';
import { bruteFoot } from '../test/support/bruteFoot';
import { seeded } from '../test/support/randomLine';
import { writeBetween } from './support/writeBetween';

/**
 * The table of docs/exactness.md, by latitude and edge length: `npx tsx bench/accuracy.ts` writes it, `--check` fails
 * where the page has another. Seeded; errors are rounded up to 1, 2 or 5, so that the last bits of a machine don't show.
 */
const LATITUDES = [0, 30, 45, 60, 80, 89.9];
const EDGES = [5, 50, 500, 10_000, 1_000_000];
const ROUNDS = 60;

/** Below this, in metres, is the noise of geographiclib and of the judge: not told apart. */
const NOISE = 1e-7;

interface Errors {
  fast: number;
  exact: number;
  planar: number;
}

/** Largest errors of the distance of points beside an edge: up to 20 edge lengths away, 1 km at most on edges shorter. */
function errorsAt(lat: number, edge: number): Errors {
  const draw = seeded(lat * 10 + edge);
  const errors: Errors = { fast: 0, exact: 0, planar: 0 };
  const ruler = new CheapRuler(lat, 'meters');
  for (let k = 0; k < ROUNDS; k++) {
    const from: Position = [draw() * 360 - 180, lat];
    const to = direct(from, draw() * 360, edge).position;
    const line = inverse(from, to);
    const beside = direct(from, line.initialAzimuth, edge * draw());
    const away = Math.max(Math.min(1000, 20 * edge), edge) * draw();
    const side = draw() < 0.5 ? 90 : -90;
    const point = direct(beside.position, beside.finalAzimuth + side, away).position;
    const truth = bruteFoot(point, from, to, { low: 0, high: edge, samples: 20 });
    const feet = new EdgeFeet([from[0], to[0]], [from[1], to[1]]);
    feet.moveTo(point[0], point[1]);
    feet.measure(0);
    const exact = pointToSegment(point, from, to);
    const [a, b, p] = [from, to, point].map(([lon, y]) => [near(lon, from[0]), y] as [number, number]);
    const larger = (name: keyof Errors, distance: number) => {
      errors[name] = Math.max(errors[name], Math.abs(distance - truth.distance));
    };
    larger('fast', feet.distance);
    larger('exact', exact.distance);
    larger('planar', ruler.pointToSegmentDistance(p, a, b));
  }
  return errors;
}

/** The same meridian on the reference's side of ±180°, which a planar method needs. */
function near(lon: number, reference: number): number {
  return lon - 360 * Math.round((lon - reference) / 360);
}

/** The next of 1, 2, 5 times a power of ten, with a unit. */
function bound(error: number): string {
  if (error < NOISE) return '< 0.1 µm';
  const power = 10 ** Math.floor(Math.log10(error));
  const rounded = [1, 2, 5, 10].find((step) => step * power >= error)! * power;
  const [size, unit] =
    rounded < 0.99e-3 ? [1e6, 'µm'] : rounded < 0.99 ? [1e3, 'mm'] : rounded < 990 ? [1, 'm'] : [1e-3, 'km'];
  return `${Number((rounded * size).toPrecision(1))} ${unit}`;
}

const length = (metres: number) => (metres < 1000 ? `${metres} m` : `${metres / 1000} km`);

function table(): string {
  const line = (first: string, rest: readonly string[]) => `| ${[first, ...rest].join(' | ')} |`;
  const cell = ({ fast, exact, planar }: Errors) => `${bound(exact)} · ${bound(fast)} · ${bound(planar)}`;
  return [
    `Largest error of a distance from a point to an edge, against brute-force minimisation along the geodesic, ${ROUNDS} seeded`,
    'points a cell, up to 1 km beside edges to 500 m and up to an edge length beside longer ones: `pointToSegment` · the fast feet',
    'of the index and of snapping · for comparison a straight line in degrees, scaled for the latitude (cheap-ruler).',
    '',
    line(
      'latitude',
      EDGES.map((edge) => `edge of ${length(edge)}`),
    ),
    line(
      '---:',
      EDGES.map(() => '---:'),
    ),
    ...LATITUDES.map((lat) =>
      line(
        `${lat}°`,
        EDGES.map((edge) => cell(errorsAt(lat, edge))),
      ),
    ),
  ].join('\n');
}

const page = new URL('../docs/exactness.md', import.meta.url);
const before = readFileSync(page, 'utf8');
const after = writeBetween(before, 'accuracy', table());
if (process.argv.includes('--check')) {
  if (after !== before) {
    console.error('docs/exactness.md is not current; run npx tsx bench/accuracy.ts');
    process.exitCode = 1;
  }
} else {
  writeFileSync(page, after);
}

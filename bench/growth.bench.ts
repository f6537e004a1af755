import { bufferWidth, direct, frechet, hausdorff, offsetRoute, routeFromLine, sliceRoute } from 'datumline';
import type { Position } from 'geojson';
import { cases } from './growth/cases';
import { at, START, shapes, squareLaps } from './growth/inputs';
import type { Bench, BenchRow } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

/** Widths took minutes where one line zigzags across the other; they should take no more than so many times Hausdorff's. */
const TIMES_HAUSDORFF = 3;

/** A line east of so many kilometres. */
const long = (kilometres: number, n: number, north: number): Position[] =>
  Array.from({ length: n }, (_, i) => at((1000 * kilometres * i) / (n - 1), north));
const aside = (line: readonly Position[], north: number): Position[] => line.map(([lon, lat]) => [lon, lat + north]);

/** What once ran away, at the size at which it did; and whether anything grows faster than its docstring says. */
export const run: Bench = async ({ smoke }) => {
  const rounds = smoke ? 1 : 3;
  const size = (n: number) => (smoke ? Math.max(8, n >> 6) : n);
  const tiny = sliceRoute(routeFromLine([START, direct(START, 45, 100).position]), 3, 3 + 1.5e-6);
  const laps = size(400);
  const [first, second] = [long(size(400), 50, 0), long(size(400), 60, 1e6)];
  const times = medianTime(
    {
      tiny: () => offsetRoute(tiny, { side: 'left', metres: 3 }).length,
      warnings: () => squareLaps(laps, 100).warnings.length,
      apart: () => frechet(first, second),
    },
    rounds,
  );
  const widths = (what: string, n: number, make: (n: number) => Position[], north: number): BenchRow => {
    const line = make(size(n));
    const other = aside(line, north);
    const { width, half, farthest } = medianTime(
      {
        width: () => bufferWidth(line, other),
        half: () => bufferWidth(line.slice(0, line.length >> 1), other.slice(0, line.length >> 1)),
        farthest: () => hausdorff(line, other).distance,
      },
      rounds,
    );
    return {
      what: `bufferWidth, ${what}, ${line.length} vertices`,
      ours: showTime(width),
      promise: `≤ ${TIMES_HAUSDORFF} × hausdorff`,
      held: width <= TIMES_HAUSDORFF * farthest,
      peers: [
        { name: 'our hausdorff', time: showTime(farthest) },
        { name: 'half as many', time: showTime(half) },
      ],
    };
  };
  return [
    { what: 'offsetRoute of a route of 1.5 micrometres', ...promised(times.tiny, 100) },
    { what: `warnings of ${laps} laps of 400 m, route built as well`, ...promised(times.warnings, 1000) },
    { what: `frechet, lines of ${size(400)} km, 1000 km apart`, ...promised(times.apart, 1000) },
    widths('side by side', 8000, (n) => Array.from({ length: n }, (_, i) => at(5 * i, 0)), 1e-4),
    widths('zigzag', 4000, shapes.zigzag, 3e-4),
    widths('back and forth', 4000, shapes['back and forth'], 1e-4),
    widths('standing still', 1000, shapes['standing still'], 1e-5),
    widths('1000 km apart', 2000, shapes.wandering, 9),
    ...(smoke ? [await growthRow()] : []),
  ];
};

/** All cases of docs/growth.md once at a small size: `bench/growth.ts` has them at theirs, which takes half an hour. */
async function growthRow(): Promise<BenchRow> {
  for (const { least, make } of cases) await make(least < 16 ? least : least >> 3)();
  return { what: `growth, ${cases.length} inputs, once each at a small size: docs/growth.md`, ours: 'run' };
}

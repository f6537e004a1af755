import { draftRoute, indexRoute } from 'datumline';
import { circle, type PlanePoint, planeRoute } from '../../test/support/planeRoute';
import { simulateRun } from '../../test/support/simulateRun';

/** Straights, two right angles, and bends of 200 m and of 60 m radius. */
const pieces: readonly { readonly kind: 'straight' | 'gentle' | 'narrow'; readonly points: readonly PlanePoint[] }[] = [
  {
    kind: 'straight',
    points: [
      [0, 0],
      [800, 0],
    ],
  },
  { kind: 'straight', points: [[800, 600]] },
  { kind: 'straight', points: [[1500, 600]] },
  { kind: 'gentle', points: circle([1500, 400], 200, 90, -90) },
  { kind: 'straight', points: [[1700, 0]] },
  { kind: 'narrow', points: circle([1640, 0], 60, 0, -180) },
  { kind: 'straight', points: [[1580, 300]] },
];
/** Metres to either side of a right angle that count as its corner. */
const CORNER = 30;

const way = planeRoute(
  [5, 52],
  pieces.flatMap(({ points }) => points),
);

/** Where each piece ends, metres along. */
function ends(): number[] {
  const lengths: number[] = [];
  let points: PlanePoint[] = [];
  for (const piece of pieces) {
    points = [...points, ...piece.points];
    lengths.push(planeRoute([5, 52], points).length);
  }
  return lengths;
}

/** How far the true way lies from drafts of it, by kind of place. */
export function draftTrial(seed: number, trials: number) {
  const marks = ends();
  const corners = [marks[0], marks[1]];
  const kindAt = (s: number) =>
    corners.some((corner) => Math.abs(corner - s) < CORNER)
      ? 'corner'
      : pieces[marks.findIndex((end) => s <= end)].kind;
  const found: Record<string, number[]> = { straight: [], corner: [], gentle: [], narrow: [] };
  for (let t = 0; t < trials; t++) {
    const run = simulateRun(way, { seed: seed + t, receivers: Array.from({ length: 6 }, () => ({ sigma: 4 })) });
    const index = indexRoute(draftRoute(run.map(({ recording }) => recording)));
    for (let s = 20; s < way.length - 20; s += 5) {
      let i = way.alongTrack.findIndex((metres) => metres >= s);
      if (way.alongTrack[i] - s > s - way.alongTrack[i - 1]) i--;
      found[kindAt(way.alongTrack[i])].push(index.nearest([way.lon[i], way.lat[i]])!.distance);
    }
  }
  const share = (values: number[], p: number) => values[Math.min(values.length - 1, Math.floor(p * values.length))];
  const told = (kind: string) => {
    const values = found[kind].sort((a, b) => a - b);
    return { p50: share(values, 0.5), p95: share(values, 0.95), most: values.at(-1)! };
  };
  return {
    straights: told('straight'),
    [`within ${CORNER} m of a right angle`]: told('corner'),
    'a bend of 200 m radius': told('gentle'),
    'a bend of 60 m radius': told('narrow'),
  };
}

import { expect, test } from 'vitest';
import { ringCrossing } from '../../src/areas/ringCrossing';
import { seeded } from '../support/randomLine';

type Place = readonly [x: number, y: number];

/** A ring over the given places, closed, with so many vertices between two of them that the sweep takes it. */
function cut(places: readonly Place[], pieces: number): Place[] {
  return places.flatMap(([x, y], k) => {
    const [toX, toY] = places[(k + 1) % places.length];
    return Array.from(
      { length: pieces },
      (_, i): Place => [x + ((toX - x) * i) / pieces, y + ((toY - y) * i) / pieces],
    );
  });
}

function found(places: readonly Place[]) {
  const closed = [...places, places[0]];
  return ringCrossing(
    closed.map(([x]) => x),
    closed.map(([, y]) => y),
  );
}

/** The ring from each of its vertices on, both ways round. */
function written(places: readonly Place[]): Place[][] {
  return places.flatMap((_, k) => {
    const turned = [...places.slice(k), ...places.slice(0, k)];
    return [turned, [...turned].reverse()];
  });
}

const crossing: [what: string, places: Place[], at: Place][] = [
  [
    'within two edges',
    [
      [0, 0],
      [2, 2],
      [2, 0],
      [0, 2],
    ],
    [1, 1],
  ],
  [
    'at a vertex of both',
    [
      [0, 0],
      [1, 1],
      [2, 2],
      [2, 0],
      [1, 1],
      [0, 2],
    ],
    [1, 1],
  ],
  [
    'at a vertex of one, on an edge of the other',
    [
      [0, 0],
      [1, 1],
      [2, 2],
      [2, 0],
      [0, 2],
    ],
    [1, 1],
  ],
  [
    'at a vertex said twice',
    [
      [0, 0],
      [1, 1],
      [1, 1],
      [2, 2],
      [2, 0],
      [1, 1],
      [0, 2],
    ],
    [1, 1],
  ],
  [
    'straight through the tip of a hook',
    [
      [0, 0],
      [4, 0],
      [4, 2],
      [2, 0],
      [1, -1],
      [0, -1],
    ],
    [2, 0],
  ],
];

const touching: [what: string, places: Place[]][] = [
  [
    'two lobes that meet at a vertex of both',
    [
      [0, 0],
      [1, 1],
      [0, 2],
      [2, 2],
      [1, 1],
      [2, 0],
    ],
  ],
  [
    'a tip that reaches an edge',
    [
      [0, 0],
      [4, 0],
      [4, 2],
      [2, 0],
      [0, 2],
    ],
  ],
  [
    'a tip that reaches a vertex',
    [
      [0, 0],
      [2, 0],
      [4, 0],
      [4, 2],
      [2, 0],
      [0, 2],
    ],
  ],
  [
    'a spike out and back',
    [
      [0, 0],
      [2, 0],
      [2, 2],
      [3, 3],
      [2, 2],
      [0, 2],
    ],
  ],
  [
    'a slit along which it comes back',
    [
      [0, 0],
      [4, 0],
      [4, 4],
      [3, 2],
      [2, 2],
      [3, 2],
      [0, 4],
    ],
  ],
  [
    'nothing but one place',
    [
      [1, 1],
      [1, 1],
      [1, 1],
    ],
  ],
];

test.each(crossing)('crosses %s, wherever it begins and whichever way it goes', (_, places, [x, y]) => {
  for (const ring of [...written(places), ...written(cut(places, 4))]) {
    const at = found(ring)?.at;
    expect(at?.[0]).toBeCloseTo(x, 12);
    expect(at?.[1]).toBeCloseTo(y, 12);
  }
});

test.each(touching)('touches only: %s', (_, places) => {
  for (const ring of [...written(places), ...written(cut(places, 4))]) expect(found(ring)).toBeUndefined();
});

/** The ring's ways through a place, each as where it comes from and where it goes. */
function waysThrough([px, py]: Place, places: readonly Place[]): (readonly [from: Place, to: Place])[] {
  const n = places.length;
  return places.flatMap((place, k) => {
    const to = places[(k + 1) % n];
    if (place[0] === px && place[1] === py) return [[places[(k + n - 1) % n], to] as const];
    const [ux, uy, vx, vy] = [place[0] - px, place[1] - py, to[0] - px, to[1] - py];
    return ux * vy === uy * vx && ux * vx + uy * vy < 0 ? [[place, to] as const] : [];
  });
}

/** Whether two ways through a place cross there: the four directions, all different, come in turn around it. Exact in whole numbers. */
function inTurn([px, py]: Place, one: readonly [Place, Place], other: readonly [Place, Place]): boolean {
  const around = [...one, ...other].map(([x, y], k) => ({ x: x - px, y: y - py, first: k < 2 }));
  const upper = ({ x, y }: { x: number; y: number }) => y > 0 || (y === 0 && x > 0);
  around.sort((a, b) => Number(upper(b)) - Number(upper(a)) || b.x * a.y - a.x * b.y);
  const different = around.every((a, k) => {
    const b = around[(k + 1) % 4];
    return a.x * b.y !== a.y * b.x || a.x * b.x + a.y * b.y < 0;
  });
  return different && around[0].first !== around[1].first && around[1].first !== around[2].first;
}

/** Every pair of edges, and every pair of ways through every vertex. */
function crossesExactly(places: readonly Place[]): boolean {
  const n = places.length;
  const side = ([ax, ay]: Place, [bx, by]: Place, [cx, cy]: Place) =>
    Math.sign((bx - ax) * (cy - ay) - (by - ay) * (cx - ax));
  for (let i = 0; i < n; i++) {
    const [a, b] = [places[i], places[(i + 1) % n]];
    for (let j = 0; j < i; j++) {
      const [c, d] = [places[j], places[(j + 1) % n]];
      if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return true;
    }
    const ways = waysThrough(a, places);
    if (ways.some((one, k) => ways.slice(0, k).some((other) => inTurn(a, one, other)))) return true;
  }
  return false;
}

test('agrees with every pair of edges and of ways through a vertex, exact in whole numbers', () => {
  const random = seeded(2027);
  const counts = { crosses: 0, touches: 0, atVertex: 0 };
  for (let round = 0; round < 20_000; round++) {
    const whole = () => Math.floor(random() * 7);
    const drawn = Array.from({ length: 4 + Math.floor(random() * 3) ** 3 }, (): Place => [whole(), whole()]);
    const places = drawn.filter(([x, y], k) => {
      const [nextX, nextY] = drawn[(k + 1) % drawn.length];
      return x !== nextX || y !== nextY;
    });
    if (places.length < 3) continue;
    const expected = crossesExactly(places);
    const crossing = found(places);
    expect(crossing !== undefined, JSON.stringify(places)).toBe(expected);
    counts[expected ? 'crosses' : 'touches']++;
    if (crossing?.at.every(Number.isInteger)) counts.atVertex++;
  }
  expect(Math.min(counts.crosses, counts.touches, counts.atVertex)).toBeGreaterThan(500);
});

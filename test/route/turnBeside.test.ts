import { direct, hausdorff, pointToSegment, type RecipeStep, type Route, routeFromRecipe } from 'datumline';
import type { Position } from 'geojson';
import { describe, expect, test } from 'vitest';

type Beside = { readonly side: 'left' | 'right'; readonly metres: number } | undefined;

/** Two lines drawn one after the other, 80 m each, that meet at a corner. */
function corner(at: Position, turn: number): [first: Position[], second: Position[]] {
  return [
    [direct(at, 230, 80).position, at],
    [at, direct(at, 50 + turn, 80).position],
  ];
}

function followed(lines: readonly (readonly [line: Position[], beside: Beside])[], cornerRadius = 0): Route {
  const steps = lines.flatMap(([line, beside], i): RecipeStep[] => [
    { call: 'section', name: `leg ${i}` },
    { call: 'follow', line, ...beside },
  ]);
  return routeFromRecipe({ version: 1, options: { cornerRadius, lateral95: 1, maxSagitta: 1e-3 }, steps });
}

const crossings = (route: Route) => route.warnings.filter(({ reason }) => reason === 'self-crossing');

const corners: readonly Position[] = [
  [12.3456789, 0.0000123],
  [-31.4123456, 60.2345678],
  [179.9999, 80.1234567],
];
const turns = [-140, -86, -30, 20, 94, 135];

describe.each(corners)('two legs drawn apart, at %d, %d', (...at) => {
  test.each(turns)('turn by %d° as one line drawn whole would, on either side', (turn) => {
    const [first, second] = corner(at, turn);
    for (const side of ['left', 'right'] as const) {
      const beside = { side, metres: 2.5 };
      const apart = followed([
        [first, beside],
        [second, beside],
      ]);
      const whole = followed([[[...first, second[1]], beside]]);
      // an arc of one is drawn by chords that stay within 1 mm, and so is that of the other
      expect(hausdorff(apart, whole).distance).toBeLessThan(0.003);
      expect(Math.abs(apart.length - whole.length)).toBeLessThan(0.01);
      expect(crossings(apart)).toEqual([]);
    }
  });

  test.each(turns)('turn by %d° from one distance aside to another, each keeping its own', (turn) => {
    const [first, second] = corner(at, turn);
    for (const [a, b] of [
      [undefined, { side: 'right', metres: 2 }],
      [undefined, { side: 'left', metres: 2 }],
      [
        { side: 'right', metres: 3 },
        { side: 'right', metres: 1 },
      ],
      [
        { side: 'left', metres: 1 },
        { side: 'right', metres: 2 },
      ],
    ] as readonly (readonly [Beside, Beside])[]) {
      const route = followed([
        [first, a],
        [second, b],
      ]);
      expect(crossings(route)).toEqual([]);
      // away from the corner each runs as far aside as asked
      const signed = (beside: Beside) =>
        beside === undefined ? 0 : beside.side === 'right' ? beside.metres : -beside.metres;
      let checked = 0;
      for (const [line, beside] of [
        [first, a],
        [second, b],
      ] as const) {
        for (let i = 0; i < route.lon.length; i++) {
          const { crossTrack, alongTrack, beyond } = pointToSegment([route.lon[i], route.lat[i]], line[0], line[1]);
          const fromCorner = line === first ? 80 - alongTrack : alongTrack;
          if (beyond !== undefined || fromCorner < 20 || Math.abs(crossTrack) > 10) continue;
          expect(Math.abs(crossTrack - signed(beside))).toBeLessThan(1e-3);
          checked++;
        }
      }
      expect(checked).toBeGreaterThan(10);
    }
  });
});

test('lines whose ends lie apart are joined by a straight line, as drawn', () => {
  const [first] = corner(corners[1], 90);
  const beside = { side: 'right', metres: 2 } as const;
  const elsewhere = direct(corners[1], 50, 12).position;
  const route = followed([
    [first, beside],
    [[elsewhere, direct(elsewhere, 140, 80).position], beside],
  ]);
  // 10 m on and 2 m over
  expect(Math.abs(route.sections[0].to - 80)).toBeLessThan(1e-3);
  expect(Math.abs(route.length - (160 + Math.sqrt(104)))).toBeLessThan(1e-3);
});

test('a section drawn by itself ends where the ways beside the lines cross', () => {
  // past bug, 2026-11-25: the way went on to beside the first line's end, and back across itself: 7 m too long
  const [first, second] = corner(corners[1], 90);
  const beside = { side: 'right', metres: 2 } as const;
  const { sections, length } = followed([
    [first, beside],
    [second, beside],
  ]);
  expect(Math.abs(sections[0].to - 78)).toBeLessThan(1e-3);
  expect(Math.abs(length - 156)).toBeLessThan(1e-3);
});

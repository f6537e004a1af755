import { describe, expect, test } from 'vitest';
import { ForwardSweep } from '../../src/snap/ForwardSweep';
import type { KnotStates } from '../../src/snap/KnotStates';
import { COUNT, leftOut, sigma, type ToldKnot, toldLattice } from '../support/toldLattice';

const JOINS = Math.exp(-3);

function sweepOver(knots: readonly ToldKnot[], eased?: number) {
  const { states, steps, pins, asked } = toldLattice(knots);
  return { sweep: new ForwardSweep(states, steps, sigma, pins, eased), asked };
}

const listed = ({ size, bin, best, sum, came }: KnotStates) =>
  Array.from({ length: size }, (_, j) => ({ bin: bin[j], best: best[j], sum: sum[j], came: came[j] }));

const bins = (states: KnotStates) => listed(states).map(({ bin }) => bin);

describe('the first knot', () => {
  test('is joined at no price but what of the route is left out before it; the heaviest weighs 1', () => {
    const { sweep, asked } = sweepOver([
      {
        states: [
          { bin: 0, emission: 0.25 },
          { bin: 100, emission: 0.5 },
        ],
        outside: 1e-6,
      },
    ]);
    const found = listed(sweep.step(0));
    const worth = [0.25, 0.5 * leftOut[100]];
    expect(found.map(({ came }) => came)).toEqual([-1, -1]);
    for (const [j, { best, sum }] of found.entries()) {
      expect(best).toBeCloseTo(worth[j] / 0.25, 12);
      expect(sum).toBeCloseTo(worth[j] / 0.25, 12);
    }
    expect(sweep.scaled).toBeCloseTo(Math.log(0.25), 12);
    // having been outside by now: as much as its fix leaves, beside the heaviest
    expect(sweep.weights.outside).toBeCloseTo(1e-6 / 0.25, 15);
    expect(sweep.weights.allOutside).toBeCloseTo(1e-6 / 0.25, 15);
    expect(asked).toEqual({ reach: [], moveTo: [], forward: [] });
  });

  test('with no state, being outside alone is weighed', () => {
    const { sweep } = sweepOver([{ states: [], outside: 0.125 }]);
    expect(sweep.step(0).size).toBe(0);
    expect(sweep.scaled).toBeCloseTo(Math.log(0.125), 12);
    expect(sweep.weights).toEqual({ outside: 1, allOutside: 1, ended: 0 });
    expect(sweep.end(1)).toBe(-1);
    expect(sweep.ended).toBe(0);
  });

  test('where being outside weighs more than any state it sets the scale of the heaviest, but not of all', () => {
    const { sweep } = sweepOver([{ states: [{ bin: 0, emission: 0.25 }], outside: 0.5 }]);
    const [{ best, sum }] = listed(sweep.step(0));
    expect(best).toBeCloseTo(0.5, 12);
    expect(sum).toBeCloseTo(1, 12);
    expect(sweep.scaled).toBeCloseTo(Math.log(0.5), 12);
    expect(sweep.weights.outside).toBeCloseTo(1, 12);
    expect(sweep.weights.allOutside).toBeCloseTo(2, 12);
  });
});

describe('a knot after it', () => {
  const first: ToldKnot = { states: [{ bin: 40, emission: 1 / leftOut[40] }], outside: 0.5 };

  test('a state is led to by steps, or joined at a price, whichever weighs more; all that leads to it is summed', () => {
    const { sweep, asked } = sweepOver([
      first,
      {
        states: [
          { bin: 41, led: { best: 0.5, sum: 0.75, from: 0 } },
          { bin: 60, led: { best: 0.001, sum: 0.002, from: 0 } },
        ],
        outside: 0.25,
      },
    ]);
    sweep.step(0);
    const { outside, allOutside } = sweep.weights;
    const found = listed(sweep.step(1));
    expect(asked).toEqual({ reach: [1], moveTo: [[1, sigma[40]]], forward: [1] });
    const joined = [41, 60].map((bin) => JOINS * leftOut[bin]);
    expect(joined[1] * outside).toBeGreaterThan(0.001);
    const best = [0.5, joined[1] * outside];
    const sum = [0.75 + joined[0] * allOutside, 0.002 + joined[1] * allOutside];
    expect(found.map(({ came }) => came)).toEqual([0, -1]);
    for (const j of [0, 1]) {
      expect(found[j].best).toBeCloseTo(best[j] / best[0], 12);
      expect(found[j].sum).toBeCloseTo(sum[j] / sum[0], 12);
    }
    expect(sweep.weights.outside).toBeCloseTo((outside * 0.25) / best[0], 12);
    expect(sweep.weights.allOutside).toBeCloseTo((allOutside * 0.25) / sum[0], 12);
  });

  test('with no state the scale is that of what has ended, or of being outside: its fix may go wild either way', () => {
    const { sweep } = sweepOver([first, { states: [], outside: 0.25 }, { states: [{ bin: 41 }], outside: 1 }]);
    sweep.step(0);
    expect(sweep.end(JOINS)).toBe(0);
    const { outside, allOutside, ended } = sweep.weights;
    expect(ended).toBeCloseTo(JOINS * leftOut[COUNT - 1 - 40], 15);
    const { scaled } = sweep;
    sweep.step(1);
    const top = 0.25 * Math.max(outside, ended);
    expect(sweep.scaled).toBeCloseTo(scaled + Math.log(top), 12);
    expect(sweep.weights.outside).toBeCloseTo((outside * 0.25) / top, 12);
    expect(sweep.weights.ended).toBeCloseTo((ended * 0.25) / top, 12);
    expect(sweep.weights.allOutside).toBe(1);
    expect(allOutside).not.toBe(1);
    // what comes then is joined anew: no step leads over a knot with no state
    expect(listed(sweep.step(2))).toMatchObject([{ bin: 41, came: -1 }]);
  });

  test('a path that has ended sets the scale where it is the heaviest', () => {
    const { sweep } = sweepOver([
      first,
      { states: [{ bin: 41, emission: 1e-9, led: { best: 1, sum: 1, from: 0 } }], outside: 0.5 },
    ]);
    sweep.step(0);
    sweep.weights = { outside: 1e-3, allOutside: 1e-3, ended: 0.125 };
    const [{ best, sum }] = listed(sweep.step(1));
    expect(best).toBeCloseTo(1e-9 / 0.0625, 15);
    expect(sum).toBeCloseTo(1, 12);
    expect(sweep.weights.ended).toBeCloseTo(1, 12);
    expect(sweep.weights.outside).toBeCloseTo(5e-4 / 0.0625, 12);
  });

  describe('that no step leads to', () => {
    /** By a skip 100 m ahead, e^-(22 + 0.005 × 100). */
    const PRICE = Math.exp(-22.5);

    test.each([
      ['both carry enough', 1, 1, 1.001e-18, true],
      ['the heaviest path does', 1, 0.5, 1.001e-18, true],
      ['all paths do', 0.5, 1, 1.001e-18, true],
      ['neither does', 1, 1, 0.999e-18, false],
      ['nothing is carried', 1, 1, 0, false],
    ])('stands where a skip carries 1e-18 to it: %s', (_, best, sum, carried, stands) => {
      const { sweep } = sweepOver([
        { states: [{ bin: 40 }], outside: 0 },
        {
          states: [
            // weighs as little, so that the other isn't dropped for weighing less than it
            { bin: 40, led: { best: 1e-18, sum: 1e-18, from: 0 } },
            { bin: 60, unreached: 1 },
          ],
          outside: 0,
          skip: carried / PRICE,
        },
      ]);
      const last = sweep.step(0);
      last.best[0] = best;
      last.sum[0] = sum;
      expect(bins(sweep.step(1))).toEqual(stands ? [40, 60] : [40]);
    });

    test('stays at any price where nothing else is left: the body is somewhere', () => {
      const { sweep } = sweepOver([
        { states: [{ bin: 40 }], outside: 0 },
        {
          states: [
            { bin: 60, unreached: 1, emission: 0.5 },
            { bin: 300, unreached: 1, emission: 0.25 },
          ],
          outside: 0,
          skip: 0,
        },
      ]);
      sweep.step(0);
      expect(listed(sweep.step(1))).toEqual([
        { bin: 60, came: 0, best: 1, sum: 1 },
        { bin: 300, came: 0, best: 0.5, sum: 0.5 },
      ]);
      expect(sweep.weights).toEqual({ outside: 0, allOutside: 0, ended: 0 });
    });

    test('comes from the state from which a skip carries most', () => {
      const { sweep } = sweepOver([
        { states: [{ bin: 0 }, { bin: 40, emission: 0.5 / leftOut[40] }], outside: 0 },
        { states: [{ bin: 60, unreached: 1 }], outside: 0, skip: 1 },
      ]);
      sweep.step(0);
      expect(listed(sweep.step(1))).toMatchObject([{ bin: 60, came: 1, best: 1, sum: 1 }]);
    });
  });

  test('skips are as much likelier as they are eased', () => {
    const knots: ToldKnot[] = [
      { states: [{ bin: 40 }], outside: 0 },
      {
        states: [
          { bin: 40, led: { best: 1, sum: 1, from: 0 } },
          { bin: 60, unreached: 1 },
        ],
        outside: 0,
        skip: 1,
      },
    ];
    const weights = [1, 100].map((eased) => {
      const { sweep } = sweepOver(knots, eased);
      sweep.step(0);
      return listed(sweep.step(1))[1];
    });
    expect(weights[1].best / weights[0].best).toBeCloseTo(100, 6);
    expect(weights[1].sum / weights[0].sum).toBeCloseTo(100, 6);
    const { sweep } = sweepOver(knots);
    sweep.step(0);
    expect(listed(sweep.step(1))[1]).toEqual(weights[0]);
  });

  test.each([
    ['from 60 m ahead of the heaviest and back', {}, false],
    ['from further ahead', { ahead: 53 }, true],
    ['from further back', { back: 27 }, true],
    ['to one that no step leads to', { unreached: 1 }, true],
    ['by a body that is lost', { fit: 0.009 }, true],
    ['where they are eased', { eased: 1.001 }, true],
  ] as const)(
    'skips from states of one pass to where steps lead are left out, others are not: %s',
    (_, given, counted) => {
      const { ahead, back, unreached, fit, eased } = {
        ahead: 52,
        back: 28,
        unreached: 0,
        fit: 1,
        eased: 1,
        ...given,
      } as const;
      // a step weighs e to the power of -28, a skip some -23 and more
      const led = { best: 1e-12, sum: 1e-12, from: 0 };
      const { sweep } = sweepOver(
        [
          {
            states: [
              { bin: back, emission: 0.5 },
              { bin: 40, fit, emission: 2 },
              { bin: ahead, emission: 0.5 },
            ],
            outside: 0,
          },
          {
            states: [
              { bin: 40, led },
              { bin: 45, led, unreached },
            ],
            outside: 0,
            skip: 1,
          },
        ],
        eased,
      );
      expect(bins(sweep.step(0))).toEqual([back, 40, ahead]);
      const { scaled } = sweep;
      expect(sweep.step(1).size).toBe(2);
      expect(sweep.scaled - scaled > -26).toBe(counted);
    },
  );

  test('to which no weight leads any more, all states are as likely, from the heaviest before', () => {
    const { sweep } = sweepOver([
      {
        states: [
          { bin: 0, emission: 0.2 },
          { bin: 40, emission: 1 / leftOut[40] },
          { bin: 80, emission: 0.3 / leftOut[80] },
        ],
        outside: 0,
      },
      {
        states: [
          { bin: 41, emission: 0.5 },
          { bin: 90, emission: 0.25 },
        ],
        outside: 0,
      },
    ]);
    expect(bins(sweep.step(0))).toEqual([0, 40, 80]);
    const found = listed(sweep.step(1));
    expect(found).toEqual([
      { bin: 41, best: 1, sum: 1, came: 1 },
      { bin: 90, best: 0.5, sum: 0.5, came: 1 },
    ]);
  });

  test('from the first of those that are as heavy; what is left of an earlier knot counts for nothing', () => {
    const led = { best: 0.5, sum: 0.5, from: 0 };
    const { sweep } = sweepOver([
      { states: [{ bin: 0 }], outside: 0 },
      {
        states: [
          { bin: 0, led },
          { bin: 20, led },
          { bin: 40, led },
        ],
        outside: 0,
      },
      { states: [{ bin: 0 }], outside: 0 },
      { states: [{ bin: 0, emission: 0.4, led }], outside: 1 },
      { states: [{ bin: 0 }], outside: 0 },
    ]);
    const came = (knot: number) => listed(sweep.step(knot)).map((state) => state.came);
    sweep.step(0);
    sweep.weights = { outside: 0, allOutside: 0, ended: 0 };
    expect(came(1)).toEqual([0, 0, 0]);
    expect(came(2)).toEqual([0]);
    // lighter than what the room held two knots before
    sweep.weights = { outside: 1, allOutside: 0, ended: 0 };
    sweep.step(3);
    sweep.weights = { outside: 0, allOutside: 0, ended: 0 };
    expect(came(4)).toEqual([0]);
  });

  test('to which only some weight leads, the others have none', () => {
    const { sweep } = sweepOver([
      { states: [{ bin: 40 }], outside: 0 },
      { states: [{ bin: 41, led: { best: 0.5, sum: 0, from: 0 } }, { bin: 90 }], outside: 0 },
    ]);
    sweep.step(0);
    // of all paths none is left, of the heaviest one: each is as it would be alone
    const found = listed(sweep.step(1));
    expect(found[0]).toEqual({ bin: 41, best: 1, sum: 1, came: 0 });
    expect(found[1]).toMatchObject({ bin: 90, best: 0, sum: 1 });
  });

  test('what was written of another knot is forgotten where none came before', () => {
    const { sweep } = sweepOver([
      { states: [{ bin: 0 }, { bin: 20, emission: 0.9 / leftOut[20] }], outside: 0.5 },
      { states: [], outside: 0.5 },
      { states: [{ bin: 3 }, { bin: 23 }], outside: 0.5 },
    ]);
    sweep.step(0);
    sweep.step(1);
    const { allOutside } = sweep.weights;
    expect(allOutside).toBe(1);
    const found = listed(sweep.step(2));
    expect(found.map(({ came }) => came)).toEqual([-1, -1]);
    expect(found[1].best / found[0].best).toBeCloseTo(leftOut[20], 12);
    expect(found[1].sum).toBeCloseTo(leftOut[20], 12);
  });

  test('what weighs a hundredth of another within 60 m goes no further', () => {
    const { sweep } = sweepOver([
      {
        states: [{ bin: 0 }, { bin: 12, emission: 0.005 / leftOut[12] }, { bin: 13, emission: 0.005 / leftOut[13] }],
        outside: 0,
      },
    ]);
    expect(bins(sweep.step(0))).toEqual([0, 13]);
  });
});

describe('paths that end', () => {
  test('on the state where what is left of the route costs least, if it weighs more than all that ended before', () => {
    const { sweep } = sweepOver([
      {
        states: [
          { bin: 300, emission: 1 / leftOut[300] },
          { bin: 390, emission: 0.9 / leftOut[390] },
        ],
        outside: 0,
      },
    ]);
    sweep.step(0);
    const values = [leftOut[99], 0.9 * leftOut[9]];
    expect(sweep.end(0.5)).toBe(1);
    expect(sweep.ended).toBeCloseTo(0.5 * values[1], 12);
    // as heavy is not heavier
    expect(sweep.end(0.5)).toBe(-1);
    expect(sweep.end(0.6)).toBe(1);
  });

  test('on the first of several that weigh the same', () => {
    const { sweep } = sweepOver([{ states: [{ bin: 399 }], outside: 0 }]);
    sweep.step(0);
    expect(sweep.end(1)).toBe(0);
    expect(sweep.ended).toBe(1);
  });
});

test('goes on from what another sweep carried', () => {
  const knots: ToldKnot[] = [
    { states: [{ bin: 0 }, { bin: 30, emission: 0.3 }], outside: 0.01 },
    { states: [{ bin: 1, led: { best: 0.2, sum: 0.3, from: 0 } }, { bin: 31 }], outside: 0.02 },
  ];
  const whole = sweepOver(knots).sweep;
  const parted = sweepOver(knots);
  whole.step(0);
  whole.end(JOINS);
  const { sweep } = sweepOver(knots);
  const from = parted.sweep;
  from.step(0);
  from.end(JOINS);
  sweep.last = from.last;
  sweep.weights = from.weights;
  expect(listed(sweep.step(1))).toEqual(listed(whole.step(1)));
  expect(sweep.weights).toEqual(whole.weights);
});

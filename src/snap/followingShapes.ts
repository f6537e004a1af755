import type { Shapes } from '../model';
import { SAVED_VERSION } from './followRoute';

const column = { items: {} } as const;
const flag = { oneOf: [0, 1] } as const;
const index = { any: ['null', { min: 0 }] } as const;
/** Milliseconds since the epoch, as ECMA-262 bounds them; seconds, and metres, that no sum of them exceeds. */
const instant = { any: ['null', { min: -8.64e15, max: 8.64e15 }] } as const;
const seconds = { min: -1e20, max: 1e20 } as const;
const metres = { min: -2e7, max: 2e7 } as const;
const weight = { min: 0, max: 1 } as const;
const place = { any: ['null', '#fix'] } as const;

/** What {@link Follower.save} writes, in short. */
export const followingShapes: Shapes = {
  saved: {
    must: {
      version: { oneOf: [SAVED_VERSION] },
      route: 'string',
      options: {
        must: {
          lag: { any: ['null', { min: 0 }] },
          sigma: { any: ['null', { above: 0 }] },
          maxDistance: { any: ['null', { above: 0 }] },
        },
      },
      count: { min: 0 },
      clock: { must: { seconds, believed: instant, since: seconds, given: instant, back: { min: 0 } } },
      pace: { must: { speeds: { items: { above: 0, max: 2e7 } }, around: { items: { min: 0, max: 2e7 } } } },
      sigma: {
        must: {
          bin: column,
          aside: { items: { min: 0, max: 2e7 } },
          waiting: { min: 0 },
          seconds: { any: ['null', seconds] },
        },
      },
      state: {
        must: { evidence: { min: 0 }, begun: index, last: {}, seconds, off: flag, joined: flag, past: flag },
      },
      before: place,
      taken: flag,
      thrown: { items: '#fix' },
      chosen: place,
      interrupted: flag,
      knot: place,
      states: {
        must: {
          lost: flag,
          heaviest: {},
          bin: column,
          x: { items: metres },
          y: { items: metres },
          z: { items: metres },
          skip: { items: weight },
          best: { items: weight },
          sum: { items: weight },
        },
      },
      weights: { must: { outside: weight, allOutside: { min: 0 }, ended: weight } },
      knots: { must: { first: { min: 0 }, list: { items: '#knot' } } },
      open: { items: '#open' },
      settled: { items: '#settled' },
      kept: {
        must: {
          lon: { items: { min: -540, max: 540 } },
          lat: { items: { min: -90, max: 90 } },
          time: { items: instant },
          gapBefore: { items: flag },
        },
      },
    },
  },
  fix: { must: { x: metres, y: metres, z: metres, seconds, admitted: { min: 0 } } },
  knot: { must: { seconds, lowest: {}, highest: {}, bin: column, came: column } },
  open: {
    must: {
      index: { min: 0 },
      lon: { min: -540, max: 540 },
      lat: { min: -90, max: 90 },
      seconds,
      knot: { min: -1 },
      state: '#state',
      off: flag,
      mistrusted: flag,
    },
  },
  settled: {
    must: { index: { min: 0 }, state: '#state', confidence: { min: 0, max: 1 }, lag: { min: 0 } },
    may: { alongTrack: {}, crossTrack: {}, distance: { min: 0 }, segment: { min: 0 } },
  },
  state: { oneOf: ['on', 'off', 'before', 'after', 'unplaced'] },
};

import { checkColumns, type FixState, type Snapped } from '../model';

/** Where one fix lies on the route; what is not known of one that is not on it is absent. */
export interface FixPlace {
  /** Of the fix in the recording, from 0: the same in every column. */
  readonly index: number;
  readonly state: FixState;
  /** 0–1: how sure it is that the fix lies on this part of the route. */
  readonly confidence: number;
  /** Metres along the route. */
  readonly alongTrack?: number;
  /** Metres from the route, right positive, left negative. */
  readonly crossTrack?: number;
  /** Metres from the route, unsigned. */
  readonly distance?: number;
  /** Index of the route's segment. */
  readonly segment?: number;
}

/**
 * The places that {@link snap} found, one after the other, as objects: for who does not want columns.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60]]);
 * const recording = recordingFrom({ lon: [5.001, 5.002], lat: [60.00001, 60.00001], time: [0, 30000] });
 * [...places(snap(route, recording))][1] // → { index: 1, state: 'on', alongTrack: 111.6…, crossTrack: -1.11…, distance: 1.11…, segment: 22 }
 * places({}).next() // throws wrong-type: snapped must be what snap gives
 *
 * @throws {InputError} what is no such answer, when the first is asked for
 * @remarks Nothing is held: each object is made when it is asked for, and is the caller's own.
 */
export function* places(snapped: Snapped): Generator<FixPlace, void, undefined> {
  checkColumns(snapped, 'snapped', 'what snap gives', [
    'state',
    'alongTrack',
    'crossTrack',
    'distance',
    'segment',
    'confidence',
  ]);
  const { state, confidence, alongTrack, crossTrack, distance, segment } = snapped;
  for (let index = 0; index < state.length; index++) {
    const [word, sure, along] = [state[index], confidence[index], alongTrack[index]];
    yield Number.isNaN(along)
      ? { index, state: word, confidence: sure }
      : {
          index,
          state: word,
          confidence: sure,
          alongTrack: along,
          crossTrack: crossTrack[index],
          distance: distance[index],
          segment: segment[index],
        };
  }
}

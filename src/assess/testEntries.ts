import {
  checkColumns,
  checkLength,
  checkOptions,
  checkRecording,
  checkString,
  InputError,
  listOf,
  type OptionKeys,
  type Recording,
  type Snapped,
} from '../model';

/** A recording and what is known of how it was made. */
export interface CarriedRecording {
  readonly recording: Recording;
  /** The device, in words of the tester's own. */
  readonly receiver?: string;
  /** Where it was worn: 'left wrist', 'handlebar', … */
  readonly placement?: string;
  /** Which run: only recordings of one run are compared with each other. */
  readonly run?: string;
  /** The recording as placed on the same route already, in a worker thread or with options of {@link snap}. */
  readonly snapped?: Snapped;
}

/** As {@link CarriedRecording}, under a name of its own. */
export interface Entry {
  readonly name: string;
  readonly recording: Recording;
  readonly receiver: string | null;
  readonly placement: string | null;
  readonly run: string | null;
  readonly snapped?: Snapped;
  /** The name it came with, where another had it already; else null. */
  readonly renamedFrom: string | null;
}

const entryKeys: OptionKeys<CarriedRecording> = {
  recording: true,
  receiver: true,
  placement: true,
  run: true,
  snapped: true,
};

/**
 * The recordings of a test, each with a unique name.
 *
 * @throws {InputError} no recording, or something that is none
 */
export function testEntries(recordings: Iterable<Recording | CarriedRecording>): Entry[] {
  const list = listOf(recordings, 'recordings');
  if (list.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'recordings',
      rule: 'at least 1 recording',
      value: list,
    });
  }
  const names = new Set<string>();
  /** By name, the last copy that was told from others. */
  const copies = new Map<string, number>();
  return list.map((given: Recording | CarriedRecording, i): Entry => {
    const argument = `recordings[${i}]`;
    const wrapped: CarriedRecording =
      typeof given === 'object' && given !== null && 'recording' in given ? given : { recording: given as Recording };
    if (wrapped === given) checkOptions(wrapped, entryKeys, argument);
    for (const key of ['receiver', 'placement', 'run'] as const) {
      const value = wrapped[key];
      if (value !== undefined) checkString(value, `${argument}.${key}`);
    }
    const { recording, receiver = null, placement = null, run = null, snapped } = wrapped;
    checkRecording(recording, argument);
    if (snapped !== undefined) {
      checkColumns(snapped, `${argument}.snapped`, 'what snap gives', [
        'alongTrack',
        'crossTrack',
        'distance',
        'segment',
        'footAlongTrack',
        'confidence',
      ]);
      checkLength(snapped.alongTrack, `${argument}.snapped.alongTrack`, recording.lon.length, 'the recording');
    }
    const wanted = recording.name || receiver || `recording ${i + 1}`;
    let name = wanted;
    for (let copy = (copies.get(wanted) ?? 1) + 1; names.has(name); copy++) {
      name = `${wanted} (${copy})`;
      copies.set(wanted, copy);
    }
    names.add(name);
    return { name, recording, receiver, placement, run, snapped, renamedFrom: name === wanted ? null : wanted };
  });
}

import type { FixState, Snapped } from '../model';

const turnedStates: Readonly<Record<FixState, FixState>> = {
  on: 'on',
  off: 'off',
  before: 'after',
  after: 'before',
  unplaced: 'unplaced',
};

/** What was placed from the last fix to the first, from the first to the last. */
export function turned(snapped: Snapped): Snapped {
  const last = snapped.state.length - 1;
  return {
    alongTrack: snapped.alongTrack.reverse(),
    crossTrack: snapped.crossTrack.reverse(),
    distance: snapped.distance.reverse(),
    footAlongTrack: snapped.footAlongTrack.reverse(),
    segment: snapped.segment.reverse(),
    state: snapped.state.map((state) => turnedStates[state]).reverse(),
    confidence: snapped.confidence.reverse(),
    ambiguous: snapped.ambiguous
      .map((stretch) => ({ ...stretch, firstFix: last - stretch.lastFix, lastFix: last - stretch.firstFix }))
      .reverse(),
    skips: snapped.skips.map(({ fix, from, to }) => ({ fix: last - fix + 1, from: to, to: from })).reverse(),
    issues: snapped.issues,
  };
}

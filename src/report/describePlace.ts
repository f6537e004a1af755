import type { Place } from './reportModel';
import { showAlong, showDuration, showPeak } from './showFigures';

/** A place in one sentence: who strayed furthest there, to which side, for how long. */
export function describePlace({ worst: [{ excursion, strand }] }: Place): string {
  const where = excursion.section === null ? '' : ` in ${excursion.section}`;
  const lasting = [showAlong(excursion.metres), excursion.seconds === null ? '' : showDuration(excursion.seconds)];
  return (
    `${strand.label}: ${showPeak(excursion)} at ${showAlong(excursion.peakAt)}${where}, ` +
    `outside for ${lasting.filter(Boolean).join(', ')}.`
  );
}

import type { Place } from './reportModel';
import { showAlong, showDuration, showList, showPeak, showStretch } from './showFigures';

/** A place in one sentence: who strayed there, how far, to which side, for how long. */
export function describePlace({ worst: [worst, ...others] }: Place): string {
  const { excursion, strand } = worst;
  const where = excursion.section === null ? '' : ` in ${excursion.section}`;
  const lasting = [
    `outside for ${showAlong(excursion.metres)}`,
    ...(excursion.seconds === null ? [] : [showDuration(excursion.seconds)]),
  ].join(', ');
  const also = others.map((other) => `${other.strand.label} ${showPeak(other.excursion)}`);
  const shown = also.length > 4 ? [...also.slice(0, 3), `${also.length - 3} more`] : also;
  return (
    `${strand.label}: ${showPeak(excursion)} at ${showAlong(excursion.peakAt)}${where} ` +
    `(${showStretch(excursion.from, excursion.to)}, ${lasting})` +
    `${shown.length > 0 ? `; also ${showList(shown)}` : ''}.`
  );
}

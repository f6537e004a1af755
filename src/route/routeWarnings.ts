import type { Route, RouteWarning } from '../model';
import { contactWarnings } from './contactWarnings';
import { runsOf } from './runsOf';
import { sectionWarnings } from './sectionWarnings';

type Built = Omit<Route, 'warnings'>;

/** What the built line, its sections and what was stated about it give cause for. */
export function routeWarnings(route: Built): RouteWarning[] {
  return [...sectionWarnings(route), ...provenanceWarnings(route), ...contactWarnings(route)];
}

function provenanceWarnings({ lateral95, alongTrack, provenance, length }: Built): RouteWarning[] {
  const warnings: RouteWarning[] = [];
  const unstated: number[] = [];
  lateral95.forEach((value, i) => {
    if (Number.isNaN(value)) unstated.push(i);
  });
  for (const [first, last] of runsOf(unstated)) {
    warnings.push({
      reason: 'missing-uncertainty',
      from: alongTrack[first],
      to: last + 1 < alongTrack.length ? alongTrack[last + 1] : length,
      message: 'No lateral uncertainty is stated: how closely can recordings be judged by this line?',
    });
  }
  const framed = provenance.filter(({ frame, epoch }) => frame !== undefined || epoch !== undefined);
  for (let i = 1; i < framed.length; i++) {
    const [a, b] = [framed[i - 1], framed[i]];
    if (a.frame === b.frame && a.epoch === b.epoch) continue;
    const name = ({ frame = 'no frame', epoch }: typeof a) => (epoch === undefined ? frame : `${frame} at ${epoch}`);
    warnings.push({
      reason: 'mixed-frames',
      from: b.from,
      to: b.to,
      message: `This stretch is in ${name(b)}, the one before in ${name(a)}: they can be metres apart.`,
    });
  }
  return warnings;
}

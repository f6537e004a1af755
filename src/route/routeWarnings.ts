import type { Route, RouteWarning } from '../model';
import { linePiece } from './Piece';
import { runsOf } from './runsOf';
import { sectionWarnings } from './sectionWarnings';
import { selfContacts } from './selfContacts';

/** Metres: receivers stray that far, so that the first fixes fit the finish as well. */
const START_NEAR_END = 20;

/** Metres: nearer than this no receiver tells two passages apart. */
const REPEATED_WITHIN = 5;

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
      message: 'No lateral uncertainty is stated: how near can the recordings be judged by this line?',
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

function contactWarnings(route: Built): RouteWarning[] {
  const warnings: RouteWarning[] = [];
  const { lon, lat, length } = route;
  const end = lon.length - 1;
  const apart = linePiece([lon[0], lat[0]], [lon[end], lat[end]], false, -1).length;
  if (apart < START_NEAR_END && length > 4 * START_NEAR_END) {
    const message = `The finish lies ${apart.toFixed(1)} m from the start: fixes there fit both.`;
    warnings.push({ reason: 'start-near-end', from: 0, to: length, message });
  }
  const { crossings, repeats } = selfContacts(route, REPEATED_WITHIN);
  for (const { first, second } of crossings) {
    const message = `The route crosses itself at ${first.toFixed(1)} m and ${second.toFixed(1)} m.`;
    warnings.push({ reason: 'self-crossing', from: first, to: second, message });
  }
  for (const { first, second, direction } of repeats) {
    const way = direction === 'same' ? 'in the same direction' : 'in the opposite direction';
    const message = `The stretch is run again from ${second.from.toFixed(1)} m to ${second.to.toFixed(1)} m, ${way}.`;
    warnings.push({ reason: 'repeated-stretch', ...first, message });
  }
  return warnings;
}

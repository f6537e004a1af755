import { withoutEnd } from '../model';
import type { ReportModel } from './reportModel';
import type { StripRow } from './StripView';
import { showCount } from './showFigures';

/** A panel for each receiver, all its runs in it. */
export function receiverRows({ receivers, strands }: ReportModel, from: number, to: number): StripRow[] {
  if (strands.length === 0) return [nobody(from, to)];
  return receivers.map((receiver) => {
    const mine = strands.filter((strand) => strand.receiver === receiver);
    const label = mine.length > 1 ? `${receiver.label} (${showCount(mine.length, 'recording')})` : receiver.label;
    return { label, strands: mine, from, to };
  });
}

/** A panel for each run, all its receivers in it. */
export function runRows({ runs, strands, receivers }: ReportModel, from: number, to: number): StripRow[] {
  if (strands.length === 0) return [nobody(from, to)];
  return runs.map((run) => ({
    label: run ?? receivers.map(({ label }) => label).join(', '),
    strands: strands.filter((strand) => strand.run === run),
    from,
    to,
  }));
}

/** A panel for each lap that has a section of the given name, all recordings in it: the same place one above the other. */
export function lapRows({ sections, strands }: ReportModel, base: string): StripRow[] {
  return sections
    .filter((section) => section.lap !== null && lapBase(section.name) === base)
    .map(({ name, from, to }) => ({ label: name, strands, from, to }));
}

/** The panel of a route on which no recording could be placed. */
function nobody(from: number, to: number): StripRow {
  return { label: 'No recording was placed on the route', strands: [], from, to };
}

/** A section's name without its lap: "stand, lap 2" is "stand". */
export function lapBase(name: string): string {
  const lap = /\blap \d+\)?$/i.exec(name);
  return lap === null ? name : withoutEnd(name.slice(0, lap.index), /[\s,(]/);
}

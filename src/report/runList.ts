import type { Receiver, ReportModel, Strand } from './reportModel';

/** The recordings of a receiver in the order of the runs. */
export function strandsOf({ strands, runs }: ReportModel, receiver: Receiver): readonly Strand[] {
  return strands
    .filter((strand) => strand.receiver === receiver)
    .sort((a, b) => runs.indexOf(a.run) - runs.indexOf(b.run));
}

/** Figures of one receiver in the order of its runs, as one line: "0.7 m · 0.9 m". */
export function inRunOrder(figures: readonly string[]): string {
  return figures.join(' · ');
}

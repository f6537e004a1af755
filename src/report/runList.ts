import type { Receiver, ReportModel, Strand } from './reportModel';

/** The recordings of a receiver in the order of the runs. */
export function strandsOf({ strands, runs }: ReportModel, receiver: Receiver): readonly Strand[] {
  return strands
    .filter((strand) => strand.receiver === receiver)
    .sort((a, b) => runs.indexOf(a.run) - runs.indexOf(b.run));
}

/** Figures of one receiver in the order of its runs, as one line, their unit once: "0.7 · 0.9 m". */
export function inRunOrder(figures: readonly string[]): string {
  const unit = /\u00A0[^\d\u00A0]+$/;
  const units = figures.map((figure) => unit.exec(figure)?.[0]);
  const last = units.reduce((latest, one, i) => (one === undefined ? latest : i), -1);
  const alike = units.every((one) => one === undefined || one === units[last]);
  return figures.map((figure, i) => (alike && i < last ? figure.replace(unit, '') : figure)).join(' · ');
}

import { receiverFigures } from './receiverFigures';
import type { ReportModel } from './reportModel';
import { showList, showMetres, showOffset } from './showFigures';

/** What is shown on a section, or on the whole route, and what is not: sentences, those on order and doubt first. */
export function sectionFindings(model: ReportModel, section: string | null): string[] {
  return [...orderSentences(model, section), ...sideSentences(model, section)];
}

/** The order with its ties, or that no difference is shown; each run by itself where no summary speaks for them together. */
export function orderSentences(model: ReportModel, section: string | null): string[] {
  const summed = model.summary?.order.find((entry) => entry.section === section);
  if (summed) return [summed.sentence];
  const orders = model.assessments.flatMap(({ order }) => order.filter((entry) => entry.section === section));
  if (model.receivers.length < 2) return [];
  return orders.map(({ run, sentence }) => (orders.length > 1 && run !== null ? `${run}: ${sentence}` : sentence));
}

/** To which side each receiver lies, where that is more than the reference's uncertainty and the lever arm together allow. */
export function sideSentences(model: ReportModel, section: string | null): string[] {
  const { leverArm } = model.assessments[0].method.options;
  const sided = model.receivers.flatMap((receiver) => {
    const { rows, bias } = receiverFigures(model, receiver, section);
    const sides = new Set(rows.map(({ row }) => row.biasSide));
    const [side] = sides;
    return sides.size === 1 && side && bias !== null && Math.abs(bias) >= leverArm
      ? [{ label: receiver.label, side, bias }]
      : [];
  });
  if (sided.length === 0) return [];
  const common = new Set(sided.map(({ side }) => side)).size === 1;
  if (common && sided.length === model.receivers.length && sided.length > 1) {
    const sizes = sided.map(({ bias }) => Math.abs(bias));
    return [
      `All lie ${sided[0].side} of the line, by ${showMetres(Math.min(...sizes))} to ${showMetres(Math.max(...sizes))} on average: ` +
        'what all share can be the place, the wearer or the reference, not one receiver.',
    ];
  }
  return [`${showList(sided.map(({ label, bias }) => `${label} lies ${showOffset(bias)}`))} on average.`];
}

import { receiverFigures } from './receiverFigures';
import type { ReportModel } from './reportModel';

/** What is sure on a section and what is not: its sentence, of each run by itself where no summary speaks for them together. */
export function sectionFindings(model: ReportModel, section: string): string[] {
  const summed = model.summary?.order.find((entry) => entry.section === section);
  if (summed) return [summed.sentence, ...sharedSide(model, section)];
  const orders = model.assessments.flatMap(({ order }) => order.filter((entry) => entry.section === section));
  const sentences = orders.map(({ run, sentence }) =>
    orders.length > 1 && run !== null ? `${run}: ${sentence}` : sentence,
  );
  return [...sentences, ...sharedSide(model, section)];
}

/** That all lie surely to one side, which tells of none of them. */
function sharedSide(model: ReportModel, section: string): string[] {
  const sides = new Set(model.receivers.map((one) => receiverFigures(model, one, section).judged?.sureSide ?? null));
  const [side] = sides;
  if (model.receivers.length < 2 || sides.size > 1 || side === null) return [];
  return [
    `All lie ${side} of the line: what all share can be the place, the wearer or the reference, not one receiver.`,
  ];
}

import type { Content } from './element';
import { FAINT_BELOW, receiverFigures } from './receiverFigures';
import { receiverList } from './receiverList';
import type { ReportModel } from './reportModel';
import { showList, showShare } from './showFigures';

/** Of which stretches a receiver recorded too little: what was found there is of the rest. One line for each receiver. */
export function missingPart(model: ReportModel): Content {
  return receiverList('Not covered:', model.receivers, (receiver) => {
    const parts = model.sections.flatMap(({ name }) => {
      const { coverage } = receiverFigures(model, receiver, name);
      return coverage < FAINT_BELOW ? [`${showShare(1 - coverage)} of ${name}`] : [];
    });
    return parts.length === 0 ? null : ` ${showList(parts)}`;
  });
}

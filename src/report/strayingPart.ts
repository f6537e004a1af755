import type { Content } from './element';
import { mean, receiverFigures } from './receiverFigures';
import { receiverList } from './receiverList';
import type { Receiver, ReportModel } from './reportModel';
import { showList, showShare, showShares } from './showFigures';

/** Sections named for a receiver: where it was outside for the most metres. */
const NAMED = 1;

/** Who left the corridor, on how much of what was covered, and where most: one line for each receiver. */
export function strayingPart(model: ReportModel): Content {
  return receiverList('Outside the corridor:', model.receivers, (receiver) => {
    const share = outsideShare(model, receiver, null);
    if (share === null) return null;
    if (share === 0) return ' never';
    const interval = receiverFigures(model, receiver, null).judged?.insideCorridorInterval95;
    const range = interval ? ` (${showShares([1 - interval[1], 1 - interval[0]])})` : '';
    return ` on ${showShare(share)} of what it covered${range}${where(model, receiver)}`;
  });
}

function where(model: ReportModel, receiver: Receiver): string {
  const parts = model.sections
    .flatMap(({ name }) => {
      const share = outsideShare(model, receiver, name);
      const covered = mean(receiverFigures(model, receiver, name).rows.map(({ row }) => row.covered)) ?? 0;
      return share === null || share === 0 ? [] : [{ name, share, metres: share * covered }];
    })
    .sort((a, b) => b.metres - a.metres);
  if (parts.length === 0) return '';
  const named = parts.slice(0, NAMED).map(({ name, share }) => `${name} (${showShare(share)})`);
  const first = parts.length === 1 ? ', all in ' : parts.length > NAMED ? ', most in ' : ', in ';
  return first + showList(named);
}

/** Mean over the receiver's recordings; null where no corridor is stated or nothing was covered. */
function outsideShare(model: ReportModel, receiver: Receiver, section: string | null): number | null {
  const { insideCorridor } = receiverFigures(model, receiver, section);
  return insideCorridor === null ? null : 1 - insideCorridor;
}

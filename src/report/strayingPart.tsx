import { type Content, element, fragment } from './element';
import { mean, receiverFigures } from './receiverFigures';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { showList, showShare, showShares } from './showFigures';

/** Sections named for a receiver: where it was outside for the most metres. */
const NAMED = 1;

/** Who left the corridor, on how much of what was covered, and where most: one line for each receiver. */
export function strayingPart(model: ReportModel): Content {
  const lines = model.receivers.flatMap((receiver) => {
    const share = outsideShare(model, receiver, null);
    const interval = receiverFigures(model, receiver, null).judged?.insideCorridorInterval95 ?? null;
    return share === null ? [] : [{ receiver, share, interval }];
  });
  if (lines.length === 0) return null;
  return (
    <>
      <p>
        <strong>Outside the corridor:</strong>
      </p>
      <ul class="plain">
        {lines.map(({ receiver, share, interval }) => (
          <li>
            {receiverName(receiver)}
            {share === 0 ? ' never' : ` on ${showShare(share)} of what it covered`}
            {interval && share > 0 && ` (${showShares([1 - interval[1], 1 - interval[0]])})`}
            {where(model, receiver)}
          </li>
        ))}
      </ul>
    </>
  );
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

import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { mean, receiverFigures } from './receiverFigures';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { inRunOrder, strandsOf } from './runList';
import { showShare, showShares } from './showFigures';
import { everyStretch, stretchRow } from './stretchRow';

/** On how much of each stretch a recording shows the side of the centreline really travelled. Null without a centreline. */
export function sidePart(model: ReportModel): Content {
  if (model.strands.every(({ rows }) => [...rows.values()].every(({ correctSide }) => correctSide == null)))
    return null;
  const shares = (receiver: Receiver, stretch: string | null): Content => {
    const rows = strandsOf(model, receiver).flatMap((strand) => strand.rows.get(stretch) ?? []);
    const shown = rows.flatMap(({ correctSide }) => correctSide ?? []);
    if (shown.length === 0) return <span class="under">no figure</span>;
    const interval = receiverFigures(model, receiver, stretch).judged?.correctSideInterval95 ?? null;
    const open = mean(rows.map(({ undecidedSide }) => undecidedSide ?? null));
    return (
      <>
        {inRunOrder(shown.map(showShare))}
        {interval && <span class="under">{showShares(interval)}</span>}
        {open !== null && open > 0 && <span class="under">{showShare(open)} not resolved</span>}
      </>
    );
  };
  return (
    <>
      <DataTable
        caption="Share of the covered metres on the side travelled"
        columns={['Stretch', ...model.receivers.map(receiverName)]}
        rows={everyStretch(model).map((stretch) =>
          stretchRow(
            stretch,
            model.receivers.map((receiver) => shares(receiver, stretch.name)),
          ),
        )}
      />
      <p class="note">
        Whether a recording lies on the same side of the centreline as the reference
        {model.runs.length > 1 && ', in the order of the runs'}; below it the 95 % interval of the share. “Not resolved”
        is nearer to the centreline than the reference’s own uncertainty: it counts as neither side.
      </p>
    </>
  );
}

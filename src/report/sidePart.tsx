import { dataTable } from './dataTable';
import { type Content, element, fragment } from './element';
import { mean } from './receiverFigures';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { inRunOrder, strandsOf } from './runList';
import { showShare, showStretch } from './showFigures';

/** On how much of each stretch a recording shows the side of the centreline really travelled. Null without a centreline. */
export function sidePart(model: ReportModel): Content {
  if (model.strands.every(({ rows }) => [...rows.values()].every(({ correctSide }) => correctSide == null)))
    return null;
  const stretches = [...model.sections, { name: null, from: 0, to: model.route.length }];
  return (
    <>
      {dataTable(
        'Share of the covered metres on the side travelled',
        ['Stretch', ...model.receivers.map((receiver) => receiverName(receiver))],
        stretches.map(({ name, from, to }) => ({
          heading: [name ?? 'Whole route', <span class="under">{showStretch(from, to)}</span>],
          cells: model.receivers.map((receiver) => {
            const rows = strandsOf(model, receiver).flatMap((strand) => strand.rows.get(name) ?? []);
            const shares = rows.flatMap(({ correctSide }) => correctSide ?? []);
            if (shares.length === 0) return <span class="under">no figure</span>;
            const open = mean(rows.map(({ undecidedSide }) => undecidedSide ?? null));
            return (
              <>
                {inRunOrder(shares.map(showShare))}
                {open !== null && open > 0 && <span class="under">{showShare(open)} not resolved</span>}
              </>
            );
          }),
          stretch: [from, to] as const,
          ...(name === null ? { kind: 'total' as const } : {}),
        })),
      )}
      <p class="note">
        Whether a recording lies on the same side of the centreline as the reference
        {model.runs.length > 1 && ', in the order of the runs'}. “Not resolved” is nearer to the centreline than the
        reference’s own uncertainty: it counts as neither side.
      </p>
    </>
  );
}

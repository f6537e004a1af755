import type { MapAttraction } from '../assess';
import { dataTable } from './dataTable';
import { type Content, element, fragment } from './element';
import { mean } from './receiverFigures';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { inRunOrder, strandsOf } from './runList';
import { showList, showNumber, showShare, showStretch } from './showFigures';

/** Whether recordings are drawn to the other line that was given, a map's for instance. Null where none was. */
export function decoyPart(model: ReportModel): Content {
  const stretches = [...model.sections, { name: null, from: 0, to: model.route.length }].filter(({ name }) =>
    model.strands.some(({ rows }) => rows.get(name)?.mapAttraction != null),
  );
  if (stretches.length === 0) return null;
  return (
    <>
      {dataTable(
        'Attraction by the other line',
        ['Stretch', ...model.receivers.map((receiver) => receiverName(receiver))],
        stretches.map(({ name, from, to }) => ({
          heading: [name ?? 'Whole route', <span class="under">{showStretch(from, to)}</span>],
          cells: model.receivers.map((receiver) =>
            attraction(strandsOf(model, receiver).flatMap((strand) => strand.rows.get(name)?.mapAttraction ?? [])),
          ),
          stretch: [from, to] as const,
          ...(name === null ? { kind: 'total' as const } : {}),
        })),
      )}
      <p class="note">
        How far the offsets follow the other line that was given, the decoy, as it comes nearer and goes away: 0 ignores
        it, 1 lies on it{model.runs.length > 1 && ', in the order of the runs'}. A steady distance of that line cannot
        be told from a steady bias: then nothing is claimed.
      </p>
    </>
  );
}

function attraction(found: readonly MapAttraction[]): Content {
  if (found.length === 0) return <span class="under">no figure</span>;
  const verdicts = (['attracted', 'not attracted', 'cannot tell'] as const).flatMap((verdict) => {
    const n = found.filter((one) => one.verdict === verdict).length;
    return n === 0 ? [] : found.length > 1 ? `${verdict} ${n} of ${found.length}` : verdict;
  });
  const indices = found.map(({ index }) => (index === null ? '–' : showNumber(index, 2)));
  const known = found.some(({ index }) => index !== null);
  const [single] = found;
  const told = found.some(({ verdict }) => verdict !== 'cannot tell');
  const reasons = told ? [] : [...new Set(found.flatMap(({ reason }) => reason ?? []))];
  return (
    <>
      <strong class={told ? undefined : 'weak'}>{showList(verdicts)}</strong>
      <span class="under">
        {known ? inRunOrder(indices) : null}
        {found.length === 1 && known && single.interval95 !== null
          ? ` (${showNumber(single.interval95[0], 2)} to ${showNumber(single.interval95[1], 2)})`
          : null}
        {known ? '; ' : ''}nearer to it than to the reference on{' '}
        {showShare(mean(found.map(({ nearerShare }) => nearerShare)))}
      </span>
      {reasons.length > 0 && <span class="under">{reasons.join('; ')}</span>}
    </>
  );
}

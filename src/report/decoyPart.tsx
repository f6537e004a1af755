import type { MapAttraction } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { mean } from './receiverFigures';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { inRunOrder, strandsOf } from './runList';
import { showList, showNumber, showShare } from './showFigures';
import { everyStretch, stretchRow } from './stretchRow';
import { tally } from './tally';

/** Whether recordings are drawn to the other line that was given, a map's for instance. Null where none was. */
export function decoyPart(model: ReportModel): Content {
  const stretches = everyStretch(model).filter(({ name }) =>
    model.strands.some(({ rows }) => rows.get(name)?.mapAttraction != null),
  );
  if (stretches.length === 0) return null;
  const found = (receiver: Receiver, stretch: string | null) =>
    strandsOf(model, receiver).flatMap(({ rows }) => rows.get(stretch)?.mapAttraction ?? []);
  return (
    <>
      <DataTable
        caption="Attraction by the other line"
        columns={['Stretch', ...model.receivers.map(receiverName)]}
        rows={stretches.map((stretch) =>
          stretchRow(
            stretch,
            model.receivers.map((receiver) => attraction(found(receiver, stretch.name))),
          ),
        )}
      />
      <p class="note">
        How far the offsets follow the other line that was given, the decoy, as it comes nearer and goes away: 0 ignores
        it, 1 lies on it{model.runs.length > 1 && ', in the order of the runs'}. Where that line keeps a steady
        distance, attraction cannot be told from a steady bias: then nothing is claimed.
      </p>
    </>
  );
}

function attraction(found: readonly MapAttraction[]): Content {
  if (found.length === 0) return <span class="under">no figure</span>;
  const verdicts = tally(
    found.map(({ verdict }) => verdict),
    ['attracted', 'not attracted', 'cannot tell'],
  );
  const indices = found.map(({ index }) => (index === null ? '–' : showNumber(index, 2)));
  const known = found.some(({ index }) => index !== null);
  const [single] = found;
  const told = found.some(({ verdict }) => verdict !== 'cannot tell');
  const reasons = told ? [] : [...new Set(found.flatMap(({ message }) => message ?? []))];
  return (
    <>
      <strong class={told ? undefined : 'weak'}>{showList(verdicts)}</strong>
      <span class="under">
        {known && inRunOrder(indices)}
        {found.length === 1 && known && single.interval95 !== null && (
          <>
            {' '}
            ({showNumber(single.interval95[0], 2)} to {showNumber(single.interval95[1], 2)})
          </>
        )}
        {known && '; '}nearer to it than to the reference on{' '}
        {showShare(mean(found.map(({ nearerShare }) => nearerShare)))}
      </span>
      {reasons.length > 0 && <span class="under">{reasons.join(' ')}</span>}
    </>
  );
}

import type { CornerPassage } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { mean } from './receiverFigures';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { strandsOf } from './runList';
import { showAlong, showCount, showNumber, showSigned } from './showFigures';

/** Corners a table holds before it is no longer read. */
const SHOWN = 40;

/** How each receiver took each turn: cut inside or overshot outside. */
export function cornerPart(model: ReportModel): Content {
  const { corners } = model.assessments[0];
  if (corners.length === 0) return <p>The route has no turns sharp enough to judge.</p>;
  /** Of each receiver, its passages by the number of the corner. */
  const passed = new Map(
    model.receivers.map((receiver) => {
      const byCorner = new Map<number, CornerPassage[]>();
      for (const { assessment, recording } of strandsOf(model, receiver)) {
        for (const { number, passages } of assessment.corners) {
          const own = passages.filter((passage) => passage.recording === recording.name);
          const before = byCorner.get(number);
          if (before) before.push(...own);
          else byCorner.set(number, own);
        }
      }
      return [receiver, byCorner] as const;
    }),
  );
  const passagesOf = (receiver: Receiver, number: number) => passed.get(receiver)!.get(number) ?? [];
  const shown = corners.filter(({ number }) =>
    model.receivers.some((receiver) =>
      passagesOf(receiver, number).some(({ outcome }) => outcome !== null && outcome !== 'kept'),
    ),
  );
  const kept = corners.length - shown.length;
  if (shown.length === 0) {
    const turns = corners.length === 1 ? 'the one turn' : `any of ${corners.length} turns`;
    return <p>Nobody was seen to cut or overshoot {turns}.</p>;
  }
  return (
    <>
      <DataTable
        caption="Turns of the route and how they were taken"
        columns={['Turn', ...model.receivers.map(receiverName)]}
        rows={shown.slice(0, SHOWN).map(({ number, alongTrack, turn, direction, from, to }) => ({
          heading: [
            `${number}: ${showNumber(turn, 0)}° ${direction}`,
            <span class="under">{showAlong(alongTrack)}</span>,
          ],
          cells: model.receivers.map((receiver) => showPassages(passagesOf(receiver, number))),
          stretch: [from, to] as const,
        }))}
      />
      <p class="note">
        Mean offset through the turn, outside positive; {model.runs.length > 1 ? 'in how many of the runs' : 'whether'}{' '}
        it was cut inside, which shortens the recorded length, or taken wide, which lengthens it.
        {kept > 0 && ` ${showCount(kept, 'turn that all kept is', 'turns that all kept are')} in the files.`}
        {shown.length > SHOWN &&
          ` ${showCount(shown.length - SHOWN, 'further turn is', 'further turns are')} in the files.`}
      </p>
    </>
  );
}

function showPassages(passages: readonly CornerPassage[]): Content {
  const outcomes = passages.flatMap(({ outcome }) => outcome ?? []);
  if (outcomes.length === 0) return <span class="under">not covered</span>;
  const count = (which: CornerPassage['outcome'], word: string) => {
    const n = outcomes.filter((outcome) => outcome === which).length;
    return n === 0 ? [] : outcomes.length === 1 ? [word] : [`${n} ${word}`];
  };
  const done = [...count('cut inside', 'cut'), ...count('overshot outside', 'wide')];
  return (
    <>
      {showSigned(mean(passages.map((p) => p.mean)))}
      {done.length > 0 && <span class="under">{done.join(', ')}</span>}
    </>
  );
}

import type { CornerPassage } from '../assess';
import { DataTable } from './DataTable';
import { type Content, element, fragment } from './element';
import { mean } from './receiverFigures';
import { receiverName } from './receiverName';
import type { Receiver, ReportModel } from './reportModel';
import { strandsOf } from './runList';
import { showAlong, showCount, showNumber, showSigned } from './showFigures';
import { tally } from './tally';

/** Corners a table holds before it is no longer read. */
const SHOWN = 40;

/** How each receiver took each turn: cut inside or overshot outside. */
export function cornerPart(model: ReportModel): Content {
  const { corners } = model.assessments[0];
  if (corners.length === 0) return <p>The route has no turns sharp enough to judge.</p>;
  const passagesOf = (receiver: Receiver, k: number) =>
    strandsOf(model, receiver).flatMap(
      ({ assessment, recording }) =>
        assessment.corners[k]?.passages.filter((passage) => passage.recording === recording.name) ?? [],
    );
  return (
    <>
      <DataTable
        caption="Turns of the route and how they were taken"
        columns={['Turn', ...model.receivers.map(receiverName)]}
        rows={corners.slice(0, SHOWN).map(({ number, alongTrack, turn, direction, section, from, to }, k) => ({
          heading: [
            `Turn ${number}: ${showNumber(turn, 0)}° ${direction}`,
            <span class="under">{[showAlong(alongTrack), section].filter(Boolean).join(', ')}</span>,
          ],
          cells: model.receivers.map((receiver) => passed(passagesOf(receiver, k))),
          stretch: [from, to] as const,
        }))}
      />
      <p class="note">
        Mean offset through the turn, outside of it positive, inside negative, then what the runs did. “Cut inside”
        shortens the recorded length, “overshot outside” lengthens it.
        {corners.length > SHOWN &&
          ` ${showCount(corners.length - SHOWN, 'further turn is', 'further turns are')} in the files.`}
      </p>
    </>
  );
}

function passed(passages: readonly CornerPassage[]): Content {
  const outcomes = passages.flatMap(({ outcome }) => outcome ?? []);
  if (outcomes.length === 0) return <span class="under">not covered</span>;
  const counts = tally(outcomes, ['cut inside', 'kept', 'overshot outside']);
  return (
    <>
      {showSigned(mean(passages.map((p) => p.mean)))}
      <span class="under">{counts.join(', ')}</span>
    </>
  );
}

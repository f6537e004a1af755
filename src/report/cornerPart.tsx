import type { CornerPassage } from '../assess';
import { dataTable } from './dataTable';
import { type Content, element, fragment } from './element';
import { mean } from './receiverFigures';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { showAlong, showNumber, showSigned } from './showFigures';

/** Corners a table holds before it is no longer read. */
const SHOWN = 40;

/** How each receiver took each turn: cut inside or overshot outside. */
export function cornerPart(model: ReportModel): Content {
  const { corners } = model.assessments[0];
  if (corners.length === 0) return <p>The route has no turns sharp enough to judge.</p>;
  const passagesOf = (k: number) =>
    model.receivers.map((receiver) =>
      model.strands
        .filter((strand) => strand.receiver === receiver)
        .flatMap(
          ({ assessment, recording }) =>
            assessment.corners[k]?.passages.filter((p) => p.recording === recording.name) ?? [],
        ),
    );
  return (
    <>
      {dataTable(
        'Turns of the route and how they were taken',
        ['Turn', ...model.receivers.map((receiver) => receiverName(receiver))],
        corners.slice(0, SHOWN).map(({ number, alongTrack, turn, direction, section, from, to }, k) => ({
          heading: [
            `Turn ${number}: ${showNumber(turn, 0)}° ${direction}`,
            <span class="under">{[showAlong(alongTrack), section].filter(Boolean).join(', ')}</span>,
          ],
          cells: passagesOf(k).map(passage),
          stretch: [from, to] as const,
        })),
      )}
      <p class="note">
        Mean offset through the turn, outside of it positive, inside negative, then what the runs did. “Cut inside”
        shortens the recorded length, “overshot outside” lengthens it.
        {corners.length > SHOWN && ` ${corners.length - SHOWN} further turns are in the files.`}
      </p>
    </>
  );
}

function passage(passages: readonly CornerPassage[]): Content {
  const outcomes = passages.flatMap(({ outcome }) => outcome ?? []);
  if (outcomes.length === 0) return <span class="under">not covered</span>;
  const counts = (['cut inside', 'kept', 'overshot outside'] as const).flatMap((outcome) => {
    const n = outcomes.filter((o) => o === outcome).length;
    return n === 0 ? [] : outcomes.length > 1 ? `${outcome} ${n} of ${outcomes.length}` : outcome;
  });
  return (
    <>
      {showSigned(mean(passages.map((p) => p.mean)))}
      <span class="under">{counts.join(', ')}</span>
    </>
  );
}

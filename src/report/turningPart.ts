import type { Content } from './element';
import { receiverList } from './receiverList';
import type { ReportModel } from './reportModel';
import { strandsOf } from './runList';

/** Passages that may all be alike by chance. */
const FEW = 2;

/** Who cut every turn in every run, or overshot it: one line for each receiver. */
export function turningPart(model: ReportModel): Content {
  return receiverList('At every turn:', model.receivers, (receiver) => {
    const outcomes = strandsOf(model, receiver).flatMap(({ assessment, recording: { name } }) =>
      assessment.corners.flatMap(({ passages }) =>
        passages.flatMap(({ recording, outcome }) => (recording === name && outcome !== null ? outcome : [])),
      ),
    );
    const { length } = outcomes;
    const alike = length > FEW && new Set(outcomes).size === 1 && outcomes[0] !== 'kept';
    return alike ? ` ${outcomes[0]}, ${length} of ${length}` : null;
  });
}

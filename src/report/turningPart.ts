import type { Content } from './element';
import { receiverList } from './receiverList';
import type { ReportModel } from './reportModel';
import { strandsOf } from './runList';

/** Passages that may all be alike by chance. */
const FEW = 2;

/** Who cut every turn in every run, or overshot it: one line for each receiver. */
export function turningPart(model: ReportModel): Content {
  return receiverList('At every turn:', model.receivers, (receiver) => {
    const passages = strandsOf(model, receiver).flatMap(({ assessment: { corners }, recording: { name } }) =>
      corners.flatMap((corner) => corner.passages.filter(({ recording }) => recording === name)),
    );
    const outcomes = passages.flatMap(({ outcome }) => outcome ?? []);
    const [first] = outcomes;
    const all = outcomes.length;
    return all <= FEW || first === 'kept' || outcomes.some((one) => one !== first)
      ? null
      : ` ${first}, ${all} of ${all}`;
  });
}

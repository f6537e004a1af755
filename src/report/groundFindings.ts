import { groundSentences } from '../assess';
import { passagesOf } from './passagesOf';
import { mean, receiverFigures } from './receiverFigures';
import type { ReportModel } from './reportModel';
import { strandsOf } from './runList';

/** Who went through which house, and how much each was on allowed ground, in words: recordings, or receivers over their runs. */
export function groundFindings(model: ReportModel): string[] {
  const allowed = (model.route.areas ?? []).flatMap(({ name, kind }) => (kind === 'allowed' ? [name] : []));
  return groundSentences(
    model.receivers.map((receiver) => {
      const { rows, judged } = receiverFigures(model, receiver, null);
      return {
        name: receiver.label,
        passages: strandsOf(model, receiver).flatMap(passagesOf),
        insideAllowed: judged?.insideAllowed ?? mean(rows.map(({ row }) => row.insideAllowed)),
        insideAllowedInterval95: judged?.insideAllowedInterval95 ?? null,
      };
    }),
    allowed,
  );
}

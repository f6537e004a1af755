import type { Side } from '../model';
import { receiverFigures } from './receiverFigures';
import type { ReportModel } from './reportModel';

/**
 * The side of the line on which all receivers lie on a stretch, so that it tells of none of them; null where they don't: each
 * surely by itself, or one surely and in every run all together, as the run itself warns.
 */
export function sharedSide(model: ReportModel, stretch: string | null): Side | null {
  const judged = model.receivers.map((receiver) => receiverFigures(model, receiver, stretch).judged);
  if (judged.length < 2) return null;
  const side = judged.find((one) => one?.sureSide)?.sureSide ?? null;
  if (judged.every((one) => one?.sureSide === side)) return side;
  const isThere = judged.every((one) => one !== null && one.bias !== null && one.bias < 0 === (side === 'left'));
  const isCommon = model.assessments.every(({ warnings }) =>
    warnings.some(({ reason, section }) => reason === 'common-side' && (section === stretch || section === null)),
  );
  return isThere && isCommon ? side : null;
}

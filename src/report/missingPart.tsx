import { type Content, element, fragment } from './element';
import { FAINT_BELOW, receiverFigures } from './receiverFigures';
import { receiverName } from './receiverName';
import type { ReportModel } from './reportModel';
import { showList, showShare } from './showFigures';

/** Of which stretches a receiver recorded too little: what was found there is of the rest. One line for each receiver. */
export function missingPart(model: ReportModel): Content {
  const lines = model.receivers.flatMap((receiver) => {
    const parts = model.sections.flatMap(({ name }) => {
      const { coverage } = receiverFigures(model, receiver, name);
      return coverage < FAINT_BELOW ? [`${showShare(1 - coverage)} of ${name}`] : [];
    });
    return parts.length === 0 ? [] : [{ receiver, parts }];
  });
  if (lines.length === 0) return null;
  return (
    <>
      <p>
        <strong>Not covered:</strong>
      </p>
      <ul class="plain">
        {lines.map(({ receiver, parts }) => (
          <li>
            {receiverName(receiver)} {showList(parts)}
          </li>
        ))}
      </ul>
    </>
  );
}

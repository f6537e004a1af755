import { type Content, element, fragment } from './element';
import type { ReportModel } from './reportModel';
import { showMetres, showStretch } from './showFigures';

/** What the line was drawn from, when, and under which terms, stretch by stretch; null where nothing of it is stated. */
export function sourcePart({ route }: ReportModel): Content {
  const lines = route.provenance.flatMap(({ from, to, source, date, licence, frame, epoch, lateral95 }) => {
    const said = [
      source,
      date && `of ${date}`,
      licence && `licence: ${licence}`,
      frame && `frame: ${[frame, epoch].filter(Boolean).join(', epoch ')}`,
      lateral95 !== undefined && `known to ±${showMetres(lateral95)} (95 %)`,
    ].filter(Boolean);
    return said.length === 0 ? [] : [`${showStretch(from, to)}: ${said.join('; ')}.`];
  });
  if (lines.length === 0) return null;
  return (
    <>
      <p>What the line was drawn from:</p>
      <ul>
        {lines.map((line) => (
          <li>{line}</li>
        ))}
      </ul>
    </>
  );
}

import { type Content, element, fragment } from './element';
import type { ReportModel } from './reportModel';
import type { StripPanel } from './StripView';
import { shortened, textWidth } from './textWidth';

/** Height of a line of names. */
const LINE = 15;

/** Names over their bands, in as many lines as they need; a name that would need a fifth line is left out. */
export function sectionNames({ sections }: ReportModel, panel: StripPanel): { height: number; content: Content } {
  const ends: number[] = [];
  const named = sections
    .filter(({ from, to }) => from < panel.to && to > panel.from)
    .flatMap(({ name, from }) => {
      const text = shortened(name, 180, 11);
      const needed = textWidth(text, 11) + 8;
      const edge = panel.x(Math.max(from, panel.from));
      const at = Math.max(0, Math.min(edge + 3, panel.width - needed));
      const line = [0, 1, 2, 3].find((k) => (ends[k] ?? -Infinity) <= at);
      if (line === undefined) return [];
      ends[line] = at + needed;
      return [{ text, at, top: line * LINE, edge }];
    });
  const bottom = ends.length * LINE;
  const content = named.map(({ text, at, top, edge }) => (
    <>
      <path class="dl-rule" d={`M${edge.toFixed(1)},${top + 2}V${bottom + 20}`} />
      <text class="dl-small" x={at.toFixed(1)} y={top + 11}>
        {text}
      </text>
    </>
  ));
  return named.length > 0 ? { height: bottom + 4, content } : { height: 0, content: null };
}

import { element, fragment } from './element';
import type { Markup } from './Markup';
import { receiverLooks, receiverMarker, runWidth } from './receiverLooks';
import type { Receiver, ReportModel } from './reportModel';
import { runLabel } from './runKey';
import { runTags } from './runTags';
import { shortened, textWidth } from './textWidth';

/** Height of a line of the key. */
const LINE = 20;

/**
 * Which receiver and which run is which: samples of their lines with their names, in as many lines as the room's width
 * needs, from its top down; null where no key is wanted.
 */
export function drawKey(
  wanted: 'below' | 'none',
  model: ReportModel,
  receivers: readonly Receiver[],
  room: { readonly left: number; readonly top: number; readonly width: number },
): { readonly bottom: number; readonly content: Markup } | null {
  if (wanted === 'none') return null;
  const tags = runTags(model);
  const entries = [
    ...receivers.map((receiver) => ({
      name: receiver.label,
      sample: (
        <>
          <path {...receiverLooks(receiver).line} stroke-width={2} d="M0,0H28" />
          {receiverMarker(receiver, 14, 0)}
        </>
      ),
    })),
    ...(model.runs.length < 2 ? [] : model.runs).map((run) => ({
      name: runLabel(run, tags),
      sample: <path class="dl-line dl-ink" stroke-width={runWidth(model, run)} d="M0,0H28" />,
    })),
  ];
  let [x, line] = [0, 0];
  const items = entries.map(({ name, sample }) => {
    const label = shortened(name, room.width - 60);
    const needed = 36 + textWidth(label) + 16;
    if (x > 0 && x + needed > room.width) [x, line] = [0, line + 1];
    const item = (
      <g transform={`translate(${x.toFixed(1)},${line * LINE + LINE / 2})`}>
        {sample}
        <text x={34} dy=".35em">
          {label}
        </text>
      </g>
    );
    x += needed;
    return item;
  });
  const content = (
    <g transform={`translate(${room.left},${room.top})`}>
      <g>{items}</g>
    </g>
  );
  return { bottom: room.top + (entries.length === 0 ? 0 : (line + 1) * LINE), content };
}

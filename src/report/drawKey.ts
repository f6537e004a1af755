import { element } from './element';
import type { Markup } from './Markup';
import { receiverLooks, receiverMarker } from './receiverLooks';
import type { Receiver } from './reportModel';
import { shortened, textWidth } from './textWidth';

/** Height of a line of the key. */
const LINE = 20;

/** Which receiver is which: samples of their lines with their names, in as many lines as the width needs. */
export function drawKey(
  receivers: readonly Receiver[],
  width: number,
): { readonly height: number; readonly content: Markup } {
  let [x, line] = [0, 0];
  const items = receivers.map((receiver) => {
    const label = shortened(receiver.label, width - 60);
    const needed = 36 + textWidth(label) + 16;
    if (x > 0 && x + needed > width) [x, line] = [0, line + 1];
    const item = element(
      'g',
      { transform: `translate(${x.toFixed(1)},${line * LINE + LINE / 2})` },
      element('path', { ...receiverLooks(receiver).line, 'stroke-width': 2, d: 'M0,0H28' }),
      receiverMarker(receiver, 14, 0),
      element('text', { x: 34, dy: '.35em' }, label),
    );
    x += needed;
    return item;
  });
  return { height: receivers.length === 0 ? 0 : (line + 1) * LINE, content: element('g', {}, items) };
}

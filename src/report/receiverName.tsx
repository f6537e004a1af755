import { element } from './element';
import { LineSample } from './LineSample';
import type { Markup } from './Markup';
import { receiverLooks, receiverMarker } from './receiverLooks';
import type { Receiver } from './reportModel';

/** A receiver's name with a sample of its line and marker before it. */
export function receiverName(receiver: Receiver): Markup {
  return (
    <LineSample name={receiver.label}>
      <path {...receiverLooks(receiver).line} stroke-width={2} d="M0,6H30" />
      {receiverMarker(receiver, 15, 6)}
    </LineSample>
  );
}

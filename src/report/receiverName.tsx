import { element } from './element';
import type { Markup } from './Markup';
import { receiverLooks, receiverMarker } from './receiverLooks';
import type { Receiver } from './reportModel';

/** A receiver's name with a sample of its line and marker before it. */
export function receiverName(receiver: Receiver): Markup {
  return (
    <span class="receiver">
      <svg class="dl-picture" viewBox="0 0 30 12" width={30} height={12} aria-hidden="true">
        <path {...receiverLooks(receiver).line} stroke-width={2} d="M0,6H30" />
        {receiverMarker(receiver, 15, 6)}
      </svg>
      <bdi>{receiver.label}</bdi>
    </span>
  );
}

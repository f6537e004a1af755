import { type Content, element, fragment } from './element';
import { receiverName } from './receiverName';
import type { Receiver } from './reportModel';

/** A line of words for each receiver of which there is something to say, below a title; nothing without any. */
export function receiverList(
  title: string,
  receivers: readonly Receiver[],
  wordsOf: (receiver: Receiver) => Content,
): Content {
  const lines = receivers.flatMap((receiver) => {
    const words = wordsOf(receiver);
    return words === null ? [] : [<li>{[receiverName(receiver), words]}</li>];
  });
  if (lines.length === 0) return null;
  return (
    <>
      <p>
        <strong>{title}</strong>
      </p>
      <ul class="plain">{lines}</ul>
    </>
  );
}

import { type Content, element } from './element';

/** What may be wider than the screen: it scrolls by itself, reachable by keyboard. */
export function ScrollRegion(properties: {
  readonly label: string;
  /** Pictures are drawn as wide as they need to be read. */
  readonly holds?: 'picture';
  readonly children?: Content;
}): Content {
  const { label, holds, children } = properties;
  return (
    <div class={holds === 'picture' ? 'scroll wide' : 'scroll'} role="region" tabindex={0} aria-label={label}>
      {children}
    </div>
  );
}

import { type Content, element } from './element';

/** A name with a sample of its line before it, drawn in 30 by 12 pixels. */
export function LineSample({ name, children }: { readonly name: string; readonly children?: Content }): Content {
  return (
    <span class="receiver">
      <svg class="dl-picture" viewBox="0 0 30 12" aria-hidden="true">
        {children}
      </svg>
      <bdi>{name}</bdi>
    </span>
  );
}

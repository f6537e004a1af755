import { type Content, element } from './element';
import type { Markup } from './Markup';

/** A picture of the report with its caption below. */
export function captioned(picture: Content, caption: Content): Markup {
  return (
    <figure>
      {picture}
      <figcaption>{caption}</figcaption>
    </figure>
  );
}

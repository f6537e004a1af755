import { type Content, element } from './element';
import type { Markup } from './Markup';

/** What stands in a list, each by itself. */
export function listItem(content: Content): Markup {
  return <li>{content}</li>;
}

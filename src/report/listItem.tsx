import { type Content, element } from './element';
import type { Markup } from './Markup';

/** What stands in a list, each by itself; a number and its unit on one line. */
export function listItem(content: Content): Markup {
  return (
    <li>{typeof content === 'string' ? content.replace(/(\d) (?=%|(?:k?m|s|min|h)\b)/g, '$1\u00A0') : content}</li>
  );
}

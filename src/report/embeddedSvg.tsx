import { element, type Takes } from './element';
import type { Markup } from './Markup';
import type { Picture } from './Picture';

/** The picture as a part of the report, whose page has its styles. */
export function embeddedSvg({ width, height, title, description, content }: Picture, attributes: Takes = {}): Markup {
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      class="dl-picture"
      role="img"
      aria-label={`${title}. ${description}`}
      {...attributes}
    >
      <desc>{description}</desc>
      {content}
    </svg>
  );
}

import { element, type Takes } from './element';
import type { Markup } from './Markup';
import type { Picture } from './Picture';

/** The picture as a part of the report, whose page has its styles. */
export function embeddedSvg(picture: Picture, attributes: Takes = {}): Markup {
  return (
    <svg {...svgAttributes(picture)} {...attributes}>
      {picture.content}
    </svg>
  );
}

/** A picture's size, and its title and description for those who can't see it. */
export function svgAttributes({ width, height, title, description }: Picture) {
  const label = `${title}. ${description}`;
  return { viewBox: `0 0 ${width} ${height}`, width, height, class: 'dl-picture', role: 'img', 'aria-label': label };
}

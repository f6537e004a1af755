import { element } from './element';
import { Markup } from './Markup';
import type { Picture } from './Picture';
import { pictureStyle } from './pictureStyle';

/** The picture as an SVG document of its own: its styles in it, light or dark as the reader prefers. */
export function standaloneSvg({ width, height, title, description, content }: Picture): string {
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      class="dl-picture"
      role="img"
      aria-label={`${title}. ${description}`}
    >
      <title>{title}</title>
      <desc>{description}</desc>
      <style>{new Markup(pictureStyle('.dl-picture'))}</style>
      <rect class="dl-paper" width={width} height={height} />
      {content}
    </svg>
  ).text;
}

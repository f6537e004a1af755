import { element } from './element';
import { svgAttributes } from './embeddedSvg';
import { Markup } from './Markup';
import type { Picture } from './Picture';
import { pictureStyle } from './pictureStyle';

/** The picture as an SVG document of its own: its styles in it, light or dark as the reader prefers. */
export function standaloneSvg(picture: Picture): string {
  return (
    <svg xmlns="http://www.w3.org/2000/svg" {...svgAttributes(picture)}>
      <title>{picture.title}</title>
      <desc>{picture.description}</desc>
      <style>{new Markup(pictureStyle('.dl-picture'))}</style>
      <rect class="dl-paper" width={picture.width} height={picture.height} />
      {picture.content}
    </svg>
  ).text;
}

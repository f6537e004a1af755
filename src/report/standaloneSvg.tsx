import { element } from './element';
import { svgAttributes } from './embeddedSvg';
import { Markup } from './Markup';
import type { Picture } from './Picture';
import { type PictureTheme, pictureStyle } from './pictureStyle';

/** The picture as an SVG document of its own: its styles in it, so many times as large as it was drawn. */
export function standaloneSvg(picture: Picture, theme: PictureTheme, scale: number): string {
  const [width, height] = [picture.width * scale, picture.height * scale].map((size) => Number(size.toFixed(2)));
  return (
    <svg xmlns="http://www.w3.org/2000/svg" {...svgAttributes(picture)} width={width} height={height}>
      <title>{picture.title}</title>
      <desc>{picture.description}</desc>
      <style>{new Markup(pictureStyle('.dl-picture', theme))}</style>
      <rect class="dl-paper" width={picture.width} height={picture.height} />
      {picture.content}
    </svg>
  ).text;
}

import { escapeMarkup } from './escapeMarkup';
import { Markup } from './Markup';

/** What can stand inside an element: strings are text and get escaped; null, undefined and false leave nothing. */
export type Content = Markup | string | number | null | undefined | false | readonly Content[];

/** Attribute values: undefined, null and false leave the attribute out, true writes it without a value. */
type Value = string | number | boolean | null | undefined;

/** Elements that HTML writes without an end (HTML Living Standard, 13.1.2, void elements). */
const childless = new Set('area base br col embed hr img input link meta source track wbr'.split(' '));

/**
 * What JSX becomes in this room: an HTML or SVG element, or what a component returns, with all text and every attribute
 * value escaped here and nowhere else. Names of elements and attributes come from the code, never from data.
 */
export function element<Properties extends object>(
  name: string | ((properties: Properties) => Content),
  attributes: Properties | null,
  ...children: readonly Content[]
): Markup {
  if (typeof name === 'function') return new Markup(written(name({ ...(attributes as Properties), children })));
  let tag = name;
  for (const key in attributes) {
    const value = attributes[key] as Value;
    if (value === undefined || value === null || value === false) continue;
    tag += value === true ? ` ${key}` : ` ${key}="${typeof value === 'number' ? value : escapeMarkup(value)}"`;
  }
  return new Markup(childless.has(name) ? `<${tag}>` : `<${tag}>${written(children)}</${name}>`);
}

/** What `<>…</>` becomes: its content with nothing around it. */
export function fragment({ children }: { readonly children?: Content }): Content {
  return children;
}

function written(content: Content): string {
  if (content === null || content === undefined || content === false) return '';
  if (content instanceof Markup) return content.text;
  if (typeof content === 'string') return escapeMarkup(content);
  if (typeof content === 'number') return String(content);
  let text = '';
  for (const one of content) text += written(one);
  return text;
}

/** Attributes that compile: those named, those of every element, and all with a hyphen (`aria-label`, `data-at`). */
export type Takes<Name extends string = never> = {
  readonly [N in Name | 'class' | 'hidden' | 'id' | 'role' | 'tabindex' | `${string}-${string}`]?: Value;
};
type Holds<Name extends string = never> = Takes<Name> & { readonly children?: Content };

type Empty<Name extends string> = Takes<Name> & { readonly children?: never };

type Plain =
  | ('article' | 'aside' | 'body' | 'div' | 'footer' | 'head' | 'header' | 'main' | 'nav' | 'section')
  | ('h1' | 'h2' | 'h3' | 'h4' | 'p' | 'ul' | 'ol' | 'li' | 'figure' | 'figcaption' | 'details' | 'summary')
  | ('span' | 'strong' | 'bdi' | 'code' | 'label' | 'output' | 'title' | 'style' | 'desc')
  | ('table' | 'caption' | 'thead' | 'tbody' | 'tr' | 'td');

/** The elements of this room with their attributes: any other does not compile. */
export declare namespace element {
  namespace JSX {
    type Element = Markup;
    // biome-ignore lint/suspicious/noExplicitAny: each component has properties of its own
    type ElementType = keyof IntrinsicElements | ((properties: any) => Content);
    interface ElementChildrenAttribute {
      children: Content;
    }
    interface IntrinsicElements extends Record<Plain, Holds> {
      a: Holds<'href'>;
      button: Holds<'type'>;
      html: Holds<'lang'>;
      input: Empty<'type' | 'min' | 'max' | 'step' | 'value'>;
      meta: Empty<'charset' | 'content' | 'name'>;
      script: Holds<'type'>;
      sup: Holds<'title'>;
      th: Holds<'scope'>;
      svg: Holds<'x' | 'y' | 'width' | 'height' | 'viewBox' | 'overflow' | 'xmlns'>;
      g: Holds<'transform'>;
      path: Empty<'d' | 'transform' | 'fill' | 'stroke'>;
      rect: Empty<'x' | 'y' | 'width' | 'height'>;
      circle: Empty<'cx' | 'cy' | 'r'>;
      text: Holds<'x' | 'y' | 'dy' | 'transform'>;
    }
  }
}

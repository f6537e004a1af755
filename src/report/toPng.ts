import { checkArray, checkOptions, checkString, InputError } from '../model';

/** Options of {@link toPng}. */
export interface ToPngOptions {
  /** Paths of font files to take beside those of the system. @defaultValue none */
  readonly fontFiles?: readonly string[];
}

/** A larger picture would take gigabytes. */
const MOST_PIXELS = 1e8;

/** The face of words where the system has it; else the renderer takes what there is. */
const FAMILY = 'DejaVu Sans';

/** In parts, so that no bundler looks for a package that nobody need install. */
const RENDERER = ['@resvg', 'resvg-js'];

type Renderer = typeof import('@resvg/resvg-js').Resvg;
type Fonts = NonNullable<ConstructorParameters<Renderer>[1]>['font'];

/**
 * A picture of this package as PNG, as many pixels wide as the SVG says. Needs the package `@resvg/resvg-js`, which is not
 * installed with this one and is loaded when first needed, and a font: where the system has none, a picture would come out
 * without a word, and is refused.
 *
 * Give the picture a `theme` of `'light'` or `'dark'`: an image can't ask its reader. One of theme `'reader'` is refused.
 *
 * @throws {InputError} `missing` when the package is not installed or no font is found; `wrong-type`; `unreadable`: no SVG;
 * `too-large`: of over 10⁸ pixels
 *
 * @example
 * await toPng('<svg xmlns="http://www.w3.org/2000/svg"', {}) // throws unreadable: svg must be
 *
 * @remarks Rendered by resvg, https://github.com/thx/resvg-js: the same pixels from the same fonts, on every system.
 */
export async function toPng(svg: string, options: ToPngOptions = {}): Promise<Uint8Array> {
  checkString(svg, 'svg');
  checkOptions(options, { fontFiles: true });
  const { fontFiles = [] } = options;
  checkArray(fontFiles, 'options.fontFiles');
  if (svg.includes('var(--dl-')) {
    const rule = "a picture whose theme is 'light' or 'dark'";
    throw new InputError({ reason: 'misplaced', argument: 'svg', rule, value: 'one that asks its reader' });
  }
  const Resvg = await loadRenderer();
  const font: Fonts = { loadSystemFonts: true, fontFiles: [...fontFiles], defaultFontFamily: FAMILY };
  if (!canWrite(Resvg, font)) {
    const [argument, rule] = ['a font', 'installed on this system or named in fontFiles'];
    throw new InputError({
      reason: 'missing',
      argument,
      rule,
      value: undefined,
      hint: 'A PNG without one has no words',
    });
  }
  let value: string;
  try {
    const picture = new Resvg(svg, { font });
    const { width, height } = picture;
    if (width * height <= MOST_PIXELS) return picture.render().asPng();
    value = `${width} × ${height}`;
  } catch (error) {
    const hint = error instanceof Error ? error.message : String(error);
    throw new InputError({
      reason: 'unreadable',
      argument: 'svg',
      rule: 'an SVG document',
      value: svg.slice(0, 40),
      hint,
    });
  }
  throw new InputError({ reason: 'too-large', argument: 'svg', rule: `of at most ${MOST_PIXELS} pixels`, value });
}

async function loadRenderer(): Promise<Renderer> {
  try {
    return (await import(/* webpackIgnore: true */ RENDERER.join('/'))).Resvg;
  } catch {
    throw new InputError({
      reason: 'missing',
      argument: "the optional package '@resvg/resvg-js'",
      rule: 'installed to make PNG pictures',
      value: undefined,
      hint: 'npm install @resvg/resvg-js',
    });
  }
}

/** Whether a letter leaves a mark: without a font the renderer leaves words out and says nothing. */
function canWrite(Resvg: Renderer, font: Fonts): boolean {
  const letter = '<svg xmlns="http://www.w3.org/2000/svg" width="20" height="20"><text y="15">M</text></svg>';
  return new Resvg(letter, { font }).getBBox() !== undefined;
}

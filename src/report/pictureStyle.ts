import { receiverColours } from './receiverLooks';

const light = {
  paper: '#fcfcfa',
  ink: '#1a1e23',
  soft: '#56606b',
  rule: '#c3c9d0',
  band: '#f0f2f4',
  corridor: '#dbe6ea',
  doubt: '#b4c4cc',
  ground: '#e9ede6',
  built: '#d5d4ce',
};

const dark: typeof light = {
  paper: '#13171b',
  ink: '#e9ecef',
  soft: '#aab3bd',
  rule: '#454e58',
  band: '#1b2026',
  corridor: '#22323a',
  doubt: '#3b515c',
  ground: '#1d2723',
  built: '#33383d',
};

/** As the reader prefers, or one of the two whatever they prefer. */
export type PictureTheme = 'reader' | 'light' | 'dark';

function variables(colours: typeof light): string {
  return Object.entries(colours)
    .map(([name, colour]) => `--dl-${name}:${colour}`)
    .join(';');
}

/** Colours as custom properties of `selector`: light, dark where the reader prefers it, light again on paper. */
function colours(selector: string): string {
  return [
    `${selector}{${variables(light)}}`,
    `@media (prefers-color-scheme:dark){${selector}{${variables(dark)}}}`,
    `@media print{${selector}{${variables(light)}}}`,
  ].join('\n');
}

/**
 * Rules of everything drawn; `selector` is what carries the colours: the picture itself, or the page around it. Of one theme
 * they name the colours outright: programs that draw or convert SVG know no custom properties.
 */
export function pictureStyle(selector: string, theme: PictureTheme = 'reader'): string {
  if (theme === 'reader') return [colours(selector), ...rules].join('\n');
  const named: Readonly<Record<string, string>> = theme === 'light' ? light : dark;
  return rules.join('\n').replace(/var\(--dl-(\w+)\)/g, (_, name: string) => named[name]);
}

const rules = [
  '.dl-picture{color:var(--dl-ink);font-family:system-ui,sans-serif;font-size:12px;font-variant-numeric:tabular-nums}',
  '.dl-picture text{fill:var(--dl-ink)}',
  '.dl-picture .dl-soft{fill:var(--dl-soft)}',
  '.dl-picture .dl-small{font-size:11px}',
  '.dl-picture .dl-strong{font-weight:600}',
  '.dl-picture .dl-halo{paint-order:stroke;stroke:var(--dl-paper);stroke-width:3px;stroke-linejoin:round}',
  '.dl-paper{fill:var(--dl-paper)}',
  '.dl-band{fill:var(--dl-band)}',
  // surroundings in two quiet tones, what recordings are judged by outlined
  '.dl-ground{fill:var(--dl-ground);stroke:none}',
  '.dl-way{fill:none;stroke:var(--dl-built);stroke-width:3;stroke-linejoin:round;stroke-linecap:round}',
  '.dl-house{fill:var(--dl-built)}',
  '.dl-allowed{fill:var(--dl-ground);stroke:var(--dl-soft);stroke-width:.6;stroke-dasharray:3 2}',
  '.dl-impossible{fill:var(--dl-built);stroke:var(--dl-soft);stroke-width:.8}',
  '.dl-picture .dl-way-name{font-size:10px}',
  '.dl-corridor{fill:var(--dl-corridor)}',
  // a house in the corridor, and the edge of a roadway, are to be seen through it
  '.dl-sheer{fill-opacity:.6}',
  '.dl-doubt{fill:var(--dl-doubt)}',
  '.dl-edge{fill:none;stroke:var(--dl-soft);stroke-width:1;stroke-dasharray:4 3}',
  '.dl-rule{fill:none;stroke:var(--dl-rule);stroke-width:1}',
  '.dl-axis{fill:none;stroke:var(--dl-soft)}',
  '.dl-reference{fill:none;stroke:var(--dl-ink);stroke-linejoin:round;stroke-linecap:round}',
  '.dl-casing{fill:none;stroke:var(--dl-paper);stroke-width:5;stroke-linejoin:round;stroke-linecap:round}',
  '.dl-aside{fill:none;stroke:var(--dl-soft);stroke-width:1.2;stroke-dasharray:1 3;stroke-linecap:round}',
  '.dl-solid{fill:var(--dl-ink)}',
  '.dl-line{fill:none;stroke-linejoin:round}',
  '.dl-ink{stroke:var(--dl-ink)}',
  '.dl-picture .dl-run{font-size:10px;font-weight:600}',
  '.dl-area{stroke:none;fill-opacity:.3}',
  '.dl-marker{stroke:var(--dl-paper);stroke-width:1}',
  '.dl-badge{fill:var(--dl-paper);stroke:var(--dl-ink);stroke-width:1.4}',
  '.dl-leader{fill:none;stroke:var(--dl-ink);stroke-width:.8}',
  '.dl-out{fill:var(--dl-paper);fill-opacity:.75}',
  ...receiverColours.map((colour, i) => `.dl-r${i}{stroke:${colour}}.dl-f${i}{fill:${colour}}`),
];

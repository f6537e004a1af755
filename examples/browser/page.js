import {
  assess,
  InputError,
  offsetStatistics,
  readRecording,
  reportHtml,
  routeFromGeoJson,
  routeFromRecipe,
  snap,
} from 'datumline';

const [drop, input, said, result] = ['drop', 'file', 'said', 'result'].map((id) => document.getElementById(id));
let route = routeFromRecipe(await (await fetch('./route.json')).json());

input.addEventListener('change', () => input.files[0] && show(input.files[0]));
for (const type of ['dragenter', 'dragover', 'dragleave', 'drop']) {
  drop.addEventListener(type, (event) => {
    event.preventDefault();
    drop.classList.toggle('over', type === 'dragenter' || type === 'dragover');
    const file = type === 'drop' ? event.dataTransfer.files[0] : undefined;
    if (file) show(file);
  });
}
said.textContent = `Ready: ${route.name}, ${route.length.toFixed(0)} m.`;

async function show(file) {
  result.replaceChildren();
  try {
    const line = await lineOf(file);
    if (line) {
      route = line;
      said.textContent = `The line is now ${file.name}, ${route.length.toFixed(0)} m. Drop a recording of it.`;
      return;
    }
    const recording = await readRecording(new Uint8Array(await file.arrayBuffer()), { name: file.name });
    const began = performance.now();
    const snapped = snap(route, recording);
    const took = performance.now() - began;
    const on = snapped.state.filter((state) => state === 'on').length;
    said.textContent = `${file.name}: ${on} of ${snapped.state.length} fixes on the line, placed in ${took.toFixed(0)} ms.`;
    if (on > 0) result.append(strip(snapped, recording.gapBefore), table(snapped), report(recording));
  } catch (error) {
    if (!(error instanceof InputError || error instanceof SyntaxError)) throw error;
    said.textContent = `${file.name} cannot be read: ${error.message}`;
  }
}

/** A recipe, or what a map editor draws: lines without times. Anything else is no line. */
async function lineOf(file) {
  if (!/\.(geo)?json$/i.test(file.name)) return undefined;
  const json = JSON.parse(await file.text());
  if (json.steps) return routeFromRecipe(json);
  const timed = JSON.stringify(json).includes('coordTimes') || JSON.stringify(json).includes('"times"');
  return timed ? undefined : routeFromGeoJson(json);
}

function report(recording) {
  const page = new Blob([reportHtml(assess(route, [recording]))], { type: 'text/html' });
  const link = { href: URL.createObjectURL(page), download: 'report.html', textContent: 'Save the report' };
  return Object.assign(document.createElement('a'), link);
}

/** Left and right of the line against metres along it; a break where it was not on the line, or nothing was recorded. */
function strip({ alongTrack, crossTrack }, gapBefore) {
  const [width, height, left] = [900, 240, 80];
  const reach = Math.max(1, ...crossTrack.filter((value) => !Number.isNaN(value)).map(Math.abs));
  const x = (s) => left + (s / route.length) * (width - left - 10);
  const y = (n) => height / 2 + (n / reach) * (height / 2 - 24);
  let path = '';
  alongTrack.forEach((s, i) => {
    if (Number.isNaN(s)) return;
    path += `${gapBefore[i] || Number.isNaN(alongTrack[i - 1]) ? 'M' : 'L'}${x(s).toFixed(1)},${y(crossTrack[i]).toFixed(1)}`;
  });
  const svg = element('svg', {
    viewBox: `0 0 ${width} ${height}`,
    role: 'img',
    'aria-label': 'Offset along the line; the table below has the same by section',
  });
  const text = (at, words) =>
    svg.append(element('text', { x: 0, y: at, fill: 'currentColor', 'font-size': 13 }, words));
  text(y(-reach) + 4, `${reach.toFixed(0)} m left`);
  text(y(0) + 4, 'the line');
  text(y(reach) + 4, `${reach.toFixed(0)} m right`);
  for (const { name, lap, from, to } of route.sections) {
    svg.append(element('path', { d: `M${x(from)},0V${height}`, stroke: 'var(--edge)', 'stroke-dasharray': '2,4' }));
    // a name that is wider than its section stands in the table only
    const words = lap === undefined ? name : `${name} ${lap}`;
    if (6 * words.length < x(to) - x(from)) {
      svg.append(element('text', { x: x(from) + 4, y: 11, fill: 'currentColor', 'font-size': 11 }, words));
    }
  }
  svg.append(element('path', { d: `M${x(0)},${y(0)}H${x(route.length)}`, stroke: 'currentColor' }));
  svg.append(element('path', { d: path, fill: 'none', stroke: 'var(--line)', 'stroke-width': 1.5 }));
  return svg;
}

function table({ alongTrack, crossTrack }) {
  const body = document.createElement('table');
  const row = (tag, cells) => {
    const line = body.insertRow();
    for (const cell of cells) line.append(Object.assign(document.createElement(tag), { textContent: cell }));
  };
  row('th', ['section', 'fixes', 'off by (m)', 'on average (m)', '95 % within (m)']);
  for (const { name: section, lap, from, to } of route.sections) {
    const name = lap === undefined ? section : `${section}, lap ${lap}`;
    const offsets = crossTrack.filter((_, i) => alongTrack[i] >= from && alongTrack[i] <= to);
    if (offsets.length === 0) row('td', [name, '0', '–', '–', '–']);
    else {
      const { meanAbsolute, mean, p95 } = offsetStatistics(offsets);
      const side = `${Math.abs(mean).toFixed(1)} ${mean < 0 ? 'left' : 'right'}`;
      row('td', [name, offsets.length, meanAbsolute.toFixed(1), side, p95.toFixed(1)]);
    }
  }
  return body;
}

function element(name, attributes, text = '') {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.textContent = text;
  return made;
}

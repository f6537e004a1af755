/**
 * Points at one place in all pictures at once. The page is complete without it; it asks for nothing from outside and puts
 * names into the page as text only.
 */
export const pageScript = `(() => {
'use strict';
const data = JSON.parse(document.getElementById('walk-data').textContent);
const svgNs = 'http://www.w3.org/2000/svg';
const bar = document.getElementById('walk');
const slider = bar.querySelector('input');
const output = bar.querySelector('output');
const values = [...bar.querySelectorAll('[data-values]')];
const make = (name, parent) => parent.appendChild(document.createElementNS(svgNs, name));
const pictures = [...document.querySelectorAll('svg[data-walk]')].map((svg) => {
  const group = make('g', svg);
  group.setAttribute('class', 'dl-pointer');
  const walk = data.pictures[svg.dataset.walk];
  return { svg, group, walk };
});
const clamp = (v, a, b) => Math.min(b, Math.max(a, v));
const alongAt = ({ along: [from, to], x }, i) => from + i / (x.length - 1) * (to - from);
const placeAt = ({ along: [from, to], x, y }, s) => {
  const t = clamp((s - from) / (to - from || 1), 0, 1) * (x.length - 1);
  const i = Math.min(Math.floor(t), x.length - 2), f = t - i;
  return [x[i] + f * (x[i + 1] - x[i]), y && y[i] + f * (y[i + 1] - y[i])];
};
const inside = ({ along: [from, to] }, s) => s >= from && s <= to;
const words = (n) => n === null ? 'nothing recorded' : Math.abs(n) < 0.05 ? '0.0 m' : Math.abs(n).toFixed(1) + ' m ' + (n < 0 ? 'left' : 'right');
const sectionAt = (s) => (data.sections.find(([, from, to]) => s >= from && s <= to) || [''])[0];
const show = (s) => {
  slider.value = s;
  const text = Math.round(s) + ' m' + (sectionAt(s) ? ', ' + sectionAt(s) : '');
  output.textContent = text;
  slider.setAttribute('aria-valuetext', text);
  const i = clamp(Math.round(s / data.step), 0, data.series[0] ? data.series[0].length - 1 : 0);
  values.forEach((item, k) => { item.textContent = data.groups[k].map((j) => words(data.series[j][i])).join(' · '); });
  for (const { svg, group, walk } of pictures) {
    group.replaceChildren();
    if (!inside(walk, s)) continue;
    const [x, y] = placeAt(walk, s);
    if (walk.y) {
      const dot = make('circle', group);
      dot.setAttribute('cx', x); dot.setAttribute('cy', y); dot.setAttribute('r', 6);
    } else {
      const line = make('line', group);
      for (const key of ['x1', 'x2']) line.setAttribute(key, x);
      line.setAttribute('y1', 0); line.setAttribute('y2', svg.viewBox.baseVal.height - 34);
    }
  }
};
const stretch = (from, to) => {
  for (const { svg, group, walk } of pictures) {
    group.replaceChildren();
    const [begin, end] = walk.along;
    if (to < begin || from > end) continue;
    const [a, b] = [clamp(from, begin, end), clamp(to, begin, end)];
    if (walk.y) {
      const points = [placeAt(walk, a)];
      walk.x.forEach((x, i) => { const s = alongAt(walk, i); if (s > a && s < b) points.push([x, walk.y[i]]); });
      points.push(placeAt(walk, b));
      make('path', group).setAttribute('d', 'M' + points.map((p) => p.join(',')).join('L'));
    } else {
      const rect = make('rect', group);
      const [x0] = placeAt(walk, a), [x1] = placeAt(walk, b);
      rect.setAttribute('x', x0); rect.setAttribute('width', Math.max(1, x1 - x0));
      rect.setAttribute('y', 0); rect.setAttribute('height', svg.viewBox.baseVal.height - 34);
    }
  }
};
const light = (number) => {
  for (const item of document.querySelectorAll('[data-place]')) item.classList.toggle('dl-lit', item.dataset.place === number);
  const card = number && document.querySelector('.card[data-place="' + number + '"]');
  if (card) show(Number(card.dataset.at));
};
for (const { svg, walk } of pictures) {
  svg.addEventListener('pointermove', (event) => {
    const matrix = svg.getScreenCTM();
    if (!matrix) return;
    const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    let s;
    if (walk.y) {
      let best = Infinity, at = 0;
      walk.x.forEach((x, i) => { const d = (x - p.x) ** 2 + (walk.y[i] - p.y) ** 2; if (d < best) { best = d; at = i; } });
      s = alongAt(walk, at);
    } else {
      const f = clamp((p.x - walk.x[0]) / (walk.x[1] - walk.x[0]), 0, 1);
      s = walk.along[0] + f * (walk.along[1] - walk.along[0]);
    }
    show(s);
  });
}
for (const item of document.querySelectorAll('[data-place]')) {
  item.addEventListener('pointerenter', () => light(item.dataset.place));
  item.addEventListener('pointerleave', () => light(''));
}
for (const button of document.querySelectorAll('button[data-point]')) {
  button.hidden = false;
  button.addEventListener('click', () => light(button.dataset.point));
}
for (const row of document.querySelectorAll('tr[data-from]')) {
  row.addEventListener('pointerenter', () => stretch(Number(row.dataset.from), Number(row.dataset.to)));
}
slider.addEventListener('input', () => show(Number(slider.value)));
bar.querySelector('label').hidden = false;
show(0);
for (const { group } of pictures) group.replaceChildren();
document.documentElement.dataset.linked = 'yes';
})();`;

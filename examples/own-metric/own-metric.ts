import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as Plot from '@observablehq/plot';
import { tableFromArrays, tableToIPC } from 'apache-arrow';
import { offsetStatistics, type Recording, readRecording, snap, snapTogether } from 'datumline';
import { JSDOM } from 'jsdom';
import { demoRoute } from '../demo/demoRoute';
import { demoRuns, recordingFile } from '../demo/demoRuns';
import { worstStretch } from './worstStretch';

/** A metric of our own on the invented demo ride: columns, an Arrow table, a figure, a plot. */
const route = demoRoute();
const [{ run, worn }] = demoRuns;
const window = 100;
const out = new URL('../out/', import.meta.url);
mkdirSync(out, { recursive: true });

// 1. Columns: one entry a fix. Nothing is copied into objects.
const curves: { receiver: string; from: number; mean: number }[] = [];
const recordings: Recording[] = [];
for (const receiver of Object.keys(worn)) {
  const recording = await readRecording(readFileSync(recordingFile(run, receiver)), { name: receiver });
  const snapped = snap(route, recording);
  recordings.push(recording);

  // 2. Arrow: the same memory under names, for any notebook or database that reads it.
  const table = tableFromArrays({
    time: recording.time!,
    alongTrack: snapped.alongTrack,
    crossTrack: snapped.crossTrack,
    gapBefore: recording.gapBefore,
  });
  writeFileSync(new URL(`own-metric-${receiver}.arrow`, out), tableToIPC(table));

  // 3. The metric is a plain function on columns.
  const column = (name: 'alongTrack' | 'crossTrack' | 'gapBefore') => table.getChild(name)!.toArray();
  const found = worstStretch(column('alongTrack'), column('crossTrack'), column('gapBefore'), {
    length: route.length,
    window,
  });
  const section = route.sections.find(({ from, to }) => found.at >= from && found.at < to);
  console.log(
    `receiver ${receiver}, ${run}: worst ${window} m from ${found.at} m (${section?.name}), ${found.worst.toFixed(1)} m off`,
  );
  for (let i = 0; i < found.from.length; i += 10) {
    curves.push({ receiver, from: found.from[i], mean: found.mean[i] });
  }
}

// 4. Along the route a receiver alone hides its error; those on one body share a pace, and show it.
snapTogether(route, recordings).recordings.forEach(({ clockOffset, alongTrackError }, i) => {
  const known = alongTrackError.filter((value) => !Number.isNaN(value));
  console.log(
    `receiver ${recordings[i].name}, ${run}: clock ${clockOffset.toFixed(1)} s ahead, ${offsetStatistics(known).rms.toFixed(1)} m off along the route (rms)`,
  );
});

// 5. A plot. In a notebook `Plot.plot` needs no document; here one is lent to it.
const { document } = new JSDOM('').window;
const svg = Plot.plot({
  document,
  width: 900,
  height: 320,
  marginTop: 44,
  marginRight: 60,
  x: { label: 'metres along the route', grid: true },
  y: { label: `mean distance over the next ${window} m`, grid: true, zero: true },
  // Okabe and Ito's colours, told apart by dashes as well
  color: { domain: Object.keys(worn), range: ['#0072B2', '#D55E00', '#009E73'] },
  marks: [
    Plot.ruleX(route.sections, { x: 'from', stroke: '#999', strokeDasharray: '2,3' }),
    Plot.text(route.sections, { x: 'from', text: 'name', frameAnchor: 'top', textAnchor: 'start', dx: 4, dy: -12 }),
    ...Object.keys(worn).map((receiver, i) =>
      Plot.line(
        curves.filter((point) => point.receiver === receiver),
        { x: 'from', y: 'mean', stroke: 'receiver', strokeDasharray: ['', '6,3', '2,3'][i] },
      ),
    ),
    // each a little further to the right, so that none covers another
    ...Object.keys(worn).map((receiver, i) =>
      Plot.text([curves.filter((p) => p.receiver === receiver && p.mean > 0).at(-1)!], {
        x: 'from',
        y: 'mean',
        text: 'receiver',
        dx: 8 + 12 * i,
        textAnchor: 'start',
        fill: 'receiver',
      }),
    ),
  ],
});
svg.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
writeFileSync(new URL('own-metric.svg', out), svg.outerHTML);
console.log(`Written to ${fileURLToPath(out)}: own-metric.svg, own-metric-A.arrow, …`);

import { mkdirSync, writeFileSync } from 'node:fs';
import { demoRoute } from './demoRoute';
import { demoRuns, recordingFile } from './demoRuns';
import { simulateRide } from './simulateRide';

/** Writes the demo's recordings anew: the same seeds give the same files. */
const route = demoRoute();
mkdirSync(new URL('./recordings/', import.meta.url), { recursive: true });
demoRuns.forEach(({ run, date, worn }, i) => {
  for (const { receiver, fixes } of simulateRide(route, worn, Date.parse(date), 20300504 + i)) {
    const last = fixes.at(-1)?.segment ?? 0;
    const segments = Array.from({ length: last + 1 }, (_, k) => fixes.filter(({ segment }) => segment === k));
    const lines = segments.flatMap((segment) => [
      '<trkseg>',
      ...segment.map(
        ({ lon, lat, height, time }) =>
          `<trkpt lat="${lat.toFixed(7)}" lon="${lon.toFixed(7)}"><ele>${height.toFixed(1)}</ele>` +
          `<time>${new Date(time).toISOString().replace('.000', '')}</time></trkpt>`,
      ),
      '</trkseg>',
    ]);
    writeFileSync(
      recordingFile(run, receiver),
      [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<gpx version="1.1" creator="datumline demo, invented data" xmlns="http://www.topografix.com/GPX/1/1">',
        `<trk><name>Receiver ${receiver}, ${run}</name>`,
        ...lines,
        '</trk>',
        '</gpx>',
        '',
      ].join('\n'),
    );
  }
});

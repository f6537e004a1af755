import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { simplify } from '@turf/turf';
import { assess, readGpx, routeFromLine } from 'datumline';
import type { Bench } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';

/** How long the whole job takes on a real recording: 7 745 fixes of npm gpx-parse 0.10.4, the line thinned to 10 m. */
export const run: Bench = ({ smoke }) => {
  const folder = dirname(createRequire(import.meta.url).resolve('gpx-parse/package.json'));
  const text = readFileSync(join(folder, 'tests/integration/data/route-1.1.gpx'), 'utf8');
  const { whole } = medianTime(
    {
      whole: () => {
        const [recording] = readGpx(text, { name: 'real' });
        const coordinates = Array.from(recording.lon, (lon, i) => [lon, recording.lat[i]]);
        const line = simplify({ type: 'LineString', coordinates }, { tolerance: 10 / 111_195, highQuality: true });
        return assess(routeFromLine(line), [recording]).rows.length;
      },
    },
    smoke ? 1 : 9,
  );
  return [
    {
      what: 'main job, 7 745 real fixes: read, author, snap, assess',
      ...promised(whole, 1000),
    },
  ];
};

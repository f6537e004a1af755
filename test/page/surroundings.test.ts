import type { Feature, FeatureCollection } from 'geojson';
import { expect, test } from 'vitest';
import { readSurroundings } from '../../src/page/work/readSurroundings';
import { seeded } from '../support/randomLine';

const given = (text: string) => ({ path: 'town.geojson', file: new Blob([text]) });

test('surroundings are handed over in parts, together all there is', async () => {
  const random = seeded(7);
  const features = Array.from({ length: 900 }, (_, i): Feature => {
    const coordinates = Array.from({ length: 150 }, () => [2 + random(), 61 + random()]);
    return {
      type: 'Feature',
      properties: { kind: 'way', name: `way ${i}` },
      geometry: { type: 'LineString', coordinates },
    };
  });
  const town: FeatureCollection & { credit: string } = { type: 'FeatureCollection', features, credit: 'invented' };
  const parts: (readonly Feature[])[] = [];
  const rest = await readSurroundings(given(JSON.stringify(town)), (some) => parts.push(some));
  expect(rest).toEqual({ ...town, features: [] });
  expect(parts.flat()).toEqual(features);
  // no part larger than a page takes in unnoticed
  for (const part of parts) expect(150 * part.length).toBeLessThan(45_000);
});

test.each([
  ['{"type":"Point","coordinates":[2,61]}', 0],
  ['\ufeff{"type":"Feature","properties":null,"geometry":null}', 0],
  ['{"type":"FeatureCollection","features":[]}', 0],
  ['{"type":"FeatureCollection","features":[{"type":"Feature","properties":null,"geometry":null}]}', 1],
])('%s is taken', async (text, count) => {
  const parts: Feature[] = [];
  await readSurroundings(given(text), (some) => parts.push(...some));
  expect(parts.length).toBe(count);
});

test.each(['{"steps":[]}', 'null', '[1]', '"way"', '{', ''])('%j is refused, its file named', async (text) => {
  await expect(readSurroundings(given(text), () => {})).rejects.toThrow(
    /^town\.geojson(: not valid JSON| must be GeoJSON)/,
  );
});

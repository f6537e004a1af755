import { toCsv, toGeoJson } from 'datumline/report';
import { expect, test } from 'vitest';
import { inventedAssessment, spikePeak } from './invented';

const assessment = inventedAssessment(['A', '=HYPERLINK("x")', 'C']);

/** Reads RFC 4180 by its grammar, section 2. */
function cellsOf(csv: string): string[][] {
  const rows: string[][] = [];
  for (let at = 0; at < csv.length; ) {
    const row: string[] = [];
    for (;;) {
      const [whole, quoted, plain] = /^(?:"((?:[^"]|"")*)"|([^",\r\n]*))/.exec(csv.slice(at))!;
      row.push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
      at += whole.length;
      if (csv[at] !== ',') break;
      at++;
    }
    expect(csv.slice(at, at + 2)).toBe('\r\n');
    at += 2;
    rows.push(row);
  }
  return rows;
}

test('one line for each recording, section and metric, all of the same width', () => {
  const [header, ...rows] = cellsOf(toCsv(assessment));
  expect(new Set(rows.map((row) => row.length))).toEqual(new Set([header.length]));
  const keys = rows.map((row) => JSON.stringify([row[3], row[4], row[7]]));
  expect(new Set(keys).size).toBe(rows.length);
  const at = (recording: string, section: string, metric: string) =>
    rows.find((row) => row[3] === recording && row[4] === section && row[7] === metric)!;
  expect(Number(at('A', '', 'meanAbsolute')[8])).toBeCloseTo(0.4, 2);
  expect(Number(at('\'=HYPERLINK("x")', 'west', 'bias')[8])).toBeCloseTo(-3, 2);
  expect(at('A', '', 'meanAbsolute')[9]).toBe('m');
  expect(rows.some((row) => row.some((cell) => /NaN|undefined|null|Infinity/.test(cell)))).toBe(false);
});

test('excursions are lines where the recording was, with side, peak and the number of their place', () => {
  const { features } = toGeoJson(assessment);
  expect(features.map(({ properties }) => properties.kind)).toEqual(
    expect.arrayContaining(['route', 'section', 'recording', 'excursion', 'place']),
  );
  const excursion = features.find(({ properties }) => properties.kind === 'excursion')!;
  expect(excursion.properties).toMatchObject({ receiver: 'C', side: 'right', place: 1, section: 'west' });
  expect(excursion.properties.peak).toBeCloseTo(spikePeak, 2);
  // Eastwards, right is south: every position of the excursion lies south of the street's start.
  const { geometry } = excursion;
  if (geometry.type !== 'LineString') throw new Error(geometry.type);
  for (const [, latitude] of geometry.coordinates.slice(1, -1)) expect(latitude).toBeLessThan(61.4);
});

import { rowOf } from 'datumline';
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
  for (const name of ['A', 'C']) {
    const row = rowOf(assessment, { recording: name, section: 'west' });
    const intervals = [
      ['interval95', row.interval95],
      ['biasInterval95', row.biasInterval95],
      ['insideCorridorInterval95', row.insideCorridorInterval95],
    ] as const;
    for (const [metric, interval] of intervals) {
      expect([at(name, 'west', `${metric}Low`)[8], at(name, 'west', `${metric}High`)[8]].map(Number)).toEqual(interval);
    }
    // the corridor is 10 m wide; no uncertainty is stated, so that half a metre of lever arm is all there is
    expect(Number(at(name, 'west', 'halfWidth')[8])).toBe(5);
    expect(Number(at(name, 'west', 'lineLimit')[8])).toBe(5);
    expect(Number(at(name, 'west', 'sideLimit')[8])).toBe(0.5);
  }
  // B lies 3 m left of the line throughout, 5 m are allowed
  expect(header.slice(10)).toEqual(['lineVerdict', 'strayedTo', 'sureSide']);
  for (const row of rows.filter((one) => one[3].includes('HYPERLINK')))
    expect(row.slice(10)).toEqual(['kept', '', 'left']);
  // what stands as value is a number or nothing, so that a column of it can be summed
  expect(rows.filter((row) => row[8] !== '' && !Number.isFinite(Number(row[8])))).toEqual([]);
  expect(rows.some((row) => row.some((cell) => /NaN|undefined|null|Infinity/.test(cell)))).toBe(false);
});

test('excursions are lines where the recording was, with side, peak and the number of their place', () => {
  const { features } = toGeoJson(assessment);
  expect(features.map(({ properties }) => properties.kind)).toEqual(
    expect.arrayContaining(['route', 'section', 'recording', 'excursion', 'place']),
  );
  const excursion = features.find(({ properties }) => properties.kind === 'excursion')!;
  expect(excursion.properties).toMatchObject({ receiver: 'C', side: 'right', place: 1, section: 'west' });
  if (excursion.properties.kind !== 'excursion') throw new Error(excursion.properties.kind);
  expect(excursion.properties.peak).toBeCloseTo(spikePeak, 2);
  // Eastwards, right is south: every position of the excursion lies south of the street's start.
  const { geometry } = excursion;
  if (geometry.type !== 'LineString') throw new Error(geometry.type);
  for (const [, latitude] of geometry.coordinates.slice(1, -1)) expect(latitude).toBeLessThan(61.4);
});

test('recordings and sections carry the verdict against the line, with the figures it rests on', () => {
  const { features } = toGeoJson(assessment);
  const fields = [
    ...[
      'coverage',
      'meanAbsolute',
      'interval95',
      'bias',
      'biasInterval95',
      'insideCorridor',
      'lineVerdict',
      'strayedTo',
    ],
    ...['insideCorridorInterval95', 'correctSide', 'correctSideInterval95', 'lineLimit', 'sureSide', 'sideLimit'],
  ] as const;
  const figures = (recording: string, section: string | null) => {
    const row = rowOf(assessment, { recording, section });
    return Object.fromEntries(fields.map((field) => [field, row[field]]));
  };
  const all = features.map(({ properties }) => properties);
  const recorded = all.filter((one) => one.kind === 'recording');
  expect(recorded).toHaveLength(3);
  for (const properties of recorded) expect(properties).toMatchObject(figures(properties.name, null));
  expect(recorded[1]).toMatchObject({ lineVerdict: 'kept', strayedTo: null, sureSide: 'left' });
  for (const section of all.filter((one) => one.kind === 'section')) {
    const { recordings } = section;
    expect(recordings.map(({ name }) => name)).toEqual(assessment.recordings.map(({ name }) => name));
    for (const one of recordings) expect(one).toMatchObject(figures(one.name, section.name));
  }
});

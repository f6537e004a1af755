import { readKml, readLines } from 'datumline';
import { zipSync } from 'fflate';
import { expect, test } from 'vitest';

const kml = (inner: string) => `<kml xmlns="http://www.opengis.net/kml/2.2"><Document>${inner}</Document></kml>`;
const placemark = (inner: string) => kml(`<Placemark>${inner}</Placemark>`);
const read = (inner: string) => readKml(placemark(inner))[0];
const issues = (inner: string) => read(inner).issues.map(({ reason, count, place }) => `${reason} ${count} ${place}`);

test('coordinates are parted by any blanks, their parts by commas', () => {
  const { lon, lat, height } = read(
    '<LineString><coordinates>\n 5,60,1 \t5.1,60.1\r\n5.2,60.2,3\n</coordinates></LineString>',
  );
  expect([[...lon], [...lat], [...height!]]).toEqual([
    [5, 5.1, 5.2],
    [60, 60.1, 60.2],
    [1, Number.NaN, 3],
  ]);
});

test('when and coord of a track are parallel, wherever they stand; prefixes do not matter', () => {
  const when = ['00', '01', '02'].map((second) => `<when>2026-05-01T08:00:${second}Z</when>`);
  const coord = ['5 60 1', '5.00001 60 2', '5.00002 60 3'].map((text) => `<x:coord>${text}</x:coord>`);
  for (const order of [
    [...when, ...coord],
    [...coord, ...when],
    [when[0], coord[0], when[1], when[2], coord[1], coord[2]],
  ]) {
    const { time, height } = read(`<x:Track xmlns:x="urn:x">${order.join('')}</x:Track>`);
    expect([...time!].map((at) => at % 60000)).toEqual([0, 1000, 2000]);
    expect([...height!]).toEqual([1, 2, 3]);
  }
});

test('an empty when or coord is a missing one; what has no partner is told', () => {
  const track =
    '<Track><when/><when>2026-05-01T08:00:01Z</when><when>2026-05-01T08:00:02Z</when><when>2026-05-01T08:00:03Z</when>';
  expect(
    issues(`${track}<coord>5 60</coord><coord/><coord>5.00002 60</coord><coord>5.00003 60</coord></Track>`),
  ).toEqual(['missing-position 1 placemark 1, line 1, point 2', 'missing-time 1 placemark 1, line 1, point 1']);
  const { time, issues: told } = read(`${track}<coord>5 60</coord><coord>5.00001 60</coord></Track>`);
  expect([...time!].map((at) => at % 60000)).toEqual([Number.NaN, 1000]);
  expect(told.map(({ reason, count }) => `${reason} ${count}`)).toContain('unmatched-time 2');
});

test('the lines of a MultiGeometry and the tracks of a MultiTrack are kept apart', () => {
  const line = (lon: number) => `<LineString><coordinates>${lon},60 ${lon + 1},60</coordinates></LineString>`;
  expect([...read(`<MultiGeometry>${line(1)}${line(3)}<Point/></MultiGeometry>`).gapBefore]).toEqual([1, 0, 1, 0]);
  const track = (lon: number) => `<Track><coord>${lon} 60</coord><coord>${lon + 1} 60</coord></Track>`;
  expect([...read(`<MultiTrack><interpolate>1</interpolate>${track(1)}${track(3)}</MultiTrack>`).gapBefore]).toEqual([
    1, 0, 1, 0,
  ]);
});

const stamp = (second: number, lon: number, inner = `<coordinates>${lon},60,0</coordinates>`) =>
  `<Placemark><name>${second}</name><TimeStamp><when>2026-05-01T08:00:0${second}Z</when></TimeStamp><Point>${inner}</Point></Placemark>`;
const mark = '<Placemark><name>bench</name><Point><coordinates>5,60</coordinates></Point></Placemark>';

test('points that each have a time stamp are a recording, in order', () => {
  const [recording, ...others] = readKml(
    kml(
      `${mark}<Folder>${stamp(0, 5)}${stamp(1, 5.00001)}${stamp(2, 0, '<coordinates/>')}${stamp(3, 5.00003)}</Folder>`,
    ),
  );
  expect(others).toEqual([]);
  expect([...recording.lon]).toEqual([5, 5.00001, 5.00003]);
  expect([...recording.time!].map((at) => at % 60000)).toEqual([0, 1000, 3000]);
  expect(recording.height).toBeUndefined();
  expect(recording.issues.map(({ reason, count, place }) => `${reason} ${count} ${place}`)).toEqual([
    'ground-height 1 placemark 2',
    'missing-position 1 placemark 4',
    'not-a-line 1 placemark 1',
  ]);
  const high = '<altitudeMode>absolute</altitudeMode><coordinates>5,60,0</coordinates>';
  expect([...readKml(kml(stamp(0, 5, high) + stamp(1, 5.1)))[0].height!]).toEqual([0, 0]);
});

test('beside a line with times stamped points are marks, beside one without a recording more; told either way', () => {
  const points = stamp(0, 5) + stamp(1, 5.00001);
  const line = '<Placemark><LineString><coordinates>5,60 6,60</coordinates></LineString></Placemark>';
  expect(readKml(kml(line + points)).map(({ lon, time }) => [lon.length, time?.length])).toEqual([
    [2, undefined],
    [2, 2],
  ]);
  const track =
    '<Placemark><Track><when>2026-05-01T08:00:00Z</when><coord>5 60</coord><when>2026-05-01T08:00:01Z</when><coord>5 60</coord></Track></Placemark>';
  const [recording, ...others] = readKml(kml(track + points));
  expect(others).toEqual([]);
  expect(recording.issues.map(({ reason, count, place }) => `${reason} ${count} ${place}`)).toEqual([
    'not-recorded 2 placemark 2',
  ]);
  // no line to author from either way
  expect(readLines(kml(line + points))[0].issues.map(({ reason, count }) => `${reason} ${count}`)).toEqual([
    'not-a-line 2',
  ]);
  expect(() => readKml(kml(mark + mark))).toThrow('Dropped or mended not-a-line: 2');
});

test('numbers beyond the height, and columns of another length, are told', () => {
  expect(issues('<LineString><coordinates>5,60,1,9 6,60,1</coordinates></LineString>')).toEqual([
    'extra-numbers 1 placemark 1, line 1, point 1',
  ]);
  const data = (words: string) => `<ExtendedData><Data name="fix hdop"><value>${words}</value></Data></ExtendedData>`;
  const line = '<LineString><coordinates>5,60 6,60</coordinates></LineString>';
  expect(issues(data('1 - 3') + line)).toEqual(['unmatched-column 1 placemark 1, line 1, point 2']);
  expect(issues(data('1 good') + line)).toEqual(['unreadable-quality 1 placemark 1, line 1, point 2']);
  expect(issues(data('1 -') + line)).toEqual([]);
});

test('heights of nothing but 0 on a line laid on the ground are none', () => {
  const line = (mode: string, height: number) =>
    `<LineString>${mode}<coordinates>5,60,${height} 6,60,0</coordinates></LineString>`;
  expect(read(line('', 0)).height).toBeUndefined();
  expect(issues(line('', 0))).toEqual(['ground-height 1 placemark 1, line 1, point 0']);
  expect([...read(line('', 7)).height!]).toEqual([7, 0]);
  expect([...read(line('<altitudeMode>absolute</altitudeMode>', 0)).height!]).toEqual([0, 0]);
});

test('placemarks in folders, names and descriptions', () => {
  const line = '<LineString><coordinates>5,60 6,60</coordinates></LineString>';
  const recordings = readKml(
    kml(`<Folder><Folder><Placemark><name>a</name><description>b</description>${line}</Placemark></Folder></Folder>
      <Placemark>${line}</Placemark><Placemark><Point><coordinates>5,60</coordinates></Point></Placemark>`),
  );
  expect(recordings.map(({ name, attributes }) => [name, attributes])).toEqual([
    ['a', { description: 'b' }],
    ['track 2', {}],
  ]);
  expect(recordings[0].issues).toMatchObject([{ reason: 'not-a-line', count: 1 }]);
});

test('of an archive the main document is read: doc.kml, the first at the top, the first', () => {
  const document = (name: string) =>
    new TextEncoder().encode(
      placemark(`<name>${name}</name><LineString><coordinates>5,60 6,60</coordinates></LineString>`),
    );
  const read = (files: string[]) => readKml(zipSync(Object.fromEntries(files.map((name) => [name, document(name)]))));
  expect(read(['a/x.kml', 'b.kml', 'doc.kml'])[0].issues).toMatchObject([
    { reason: 'other-document', count: 2, place: 'the archive' },
  ]);
  expect(read(['a/x.kml', 'b.kml', 'doc.kml'])[0]).toMatchObject({ name: 'doc.kml', source: { format: 'kmz' } });
  expect(read(['a/x.kml', 'b.kml', 'c.KML'])[0].name).toBe('b.kml');
  expect(read(['picture.png', 'a/x.kml'])[0].name).toBe('a/x.kml');
  expect(() => read(['picture.png'])).toThrow(
    expect.objectContaining({ reason: 'missing', message: expect.stringContaining('an archive with a .kml file') }),
  );
});

test.each([
  [
    placemark('<LineString><coordinates>5,95 6,60</coordinates></LineString>'),
    'swapped',
    'placemark 1, line 1, point 1 latitude must be',
  ],
  [
    placemark('<LineString><coordinates>5,x 6,60</coordinates></LineString>'),
    'wrong-type',
    "latitude must be a number, not 'x'",
  ],
  [placemark('<LineString><coordinates/></LineString>'), 'too-few', 'data must be a recording of at least 2 points'],
  [kml(''), 'too-few', 'data must be a recording of at least 2 points'],
  ['<gpx/>', 'unreadable', "data must be KML, whose outermost element is kml, not 'gpx'"],
])('%j is refused', (text, reason, message) => {
  expect(() => readKml(text)).toThrow(expect.objectContaining({ reason, message: expect.stringContaining(message) }));
});

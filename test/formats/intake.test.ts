import { readGpx, readTcx } from 'datumline';
import { expect, test } from 'vitest';

const iso = (second: number) => new Date(Date.UTC(2026, 4, 1, 8) + second * 1000).toISOString();
const point = (lon: number, lat: number, inner = '') => `<trkpt lat="${lat}" lon="${lon}">${inner}</trkpt>`;
/** A point 1.1 m east of the one a second before, at 60° N. */
const at = (second: number, inner = '', east = 0) =>
  point(5 + (second + east) * 2e-5, 60, `<time>${iso(second)}</time>${inner}`);
const gpx = (...segments: string[]) =>
  `<gpx version="1.1"><trk>${segments.map((s) => `<trkseg>${s}</trkseg>`).join('')}</trk></gpx>`;
const read = (...segments: string[]) => readGpx(gpx(...segments))[0];
const told = (...segments: string[]) =>
  read(...segments).issues.map(({ reason, count, place }) => `${reason} ${count} ${place}`);
const gaps = (...segments: string[]) => [...read(...segments).gapBefore];
const seconds = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => at(from + i)).join('');
const P3 = 'track 1, segment 1, point 3';

test.each<[string, string, string, number[]]>([
  ['no latitude', '<trkpt lon="5"><time/></trkpt>', `missing-position 1 ${P3}`, [1, 0, 0, 0]],
  ['an empty latitude', '<trkpt lat="" lon="5"/>', `missing-position 1 ${P3}`, [1, 0, 0, 0]],
  ['0, 0', point(0, 0), `zero-position 1 ${P3}`, [1, 0, 1, 0]],
  ['0x7FFFFFFF semicircles', point(179.99999991618097, 179.99999991618097), `invalid-position 1 ${P3}`, [1, 0, 1, 0]],
  ['180, 180', point(180, 180), `invalid-position 1 ${P3}`, [1, 0, 1, 0]],
  ['fix none', at(2, '<fix>none</fix>'), `no-fix 1 ${P3}`, [1, 0, 1, 0]],
  ['the fix before again', at(1), `repeated-fix 1 ${P3}`, [1, 0, 0, 0]],
])('%s: dropped, told, and the line broken where the receiver had no fix', (_, odd, issue, expected) => {
  expect(told(`${seconds(0, 2)}${odd}${seconds(3, 5)}`)).toEqual([issue]);
  expect(gaps(`${seconds(0, 2)}${odd}${seconds(3, 5)}`)).toEqual(expected);
});

test.each<[string, string, string[], number[]]>([
  ['no time', point(5.00004, 60), [`missing-time 1 ${P3}`], [1, 0, 0, 0, 0]],
  [
    'a time that is none',
    point(5.00004, 60, '<time>noon</time>'),
    [`unreadable-time 1 ${P3}`, `missing-time 1 ${P3}`],
    [1, 0, 0, 0, 0],
  ],
  [
    'a day that is none',
    point(5.00004, 60, '<time>2026-02-29T00:00:00Z</time>'),
    [`unreadable-time 1 ${P3}`, `missing-time 1 ${P3}`],
    [1, 0, 0, 0, 0],
  ],
  ['a dilution that is none', at(2, '<hdop>good</hdop>'), [`unreadable-quality 1 ${P3}`], [1, 0, 0, 0, 0]],
  ['a height that is none', at(2, '<ele>high</ele>'), [`unreadable-height 1 ${P3}`], [1, 0, 0, 0, 0]],
  ['the void of elevation models', at(2, '<ele>-32768</ele>'), [`invalid-height 1 ${P3}`], [1, 0, 0, 0, 0]],
  [
    'the same time at another place',
    point(5.00003, 60, `<time>${iso(1)}</time>`),
    [`repeated-time 1 ${P3}`],
    [1, 0, 0, 0, 0],
  ],
  ['an earlier time', point(5.00004, 60, `<time>${iso(-5)}</time>`), [`reversed-time 1 ${P3}`], [1, 0, 1, 0, 0]],
  ['a jump of 100 m', at(2, '', 90), ['teleport 2 fix 2'], [1, 0, 1, 1, 0]],
])('%s: kept where it stands, and told', (_, odd, issues, expected) => {
  const segment = `${seconds(0, 2)}${odd}${seconds(3, 5)}`;
  expect(told(segment)).toEqual(issues);
  expect(read(segment).lon.length).toBe(5);
  expect(gaps(segment)).toEqual(expected);
});

test('a new segment is a gap, and needs no telling; an empty one is none', () => {
  expect(gaps(seconds(0, 2), seconds(2, 3), '', seconds(3, 5))).toEqual([1, 0, 1, 1, 0]);
  expect(told(seconds(0, 2), '', seconds(2, 4))).toEqual([]);
});

test('a point without position is a gap where no time beside it tells how long it lasted', () => {
  const nowhere = '<trkpt lon="5"/>';
  const bare = (lon: number) => point(lon, 60);
  expect(gaps(bare(5) + nowhere + bare(5.1) + bare(5.2))).toEqual([1, 1, 0]);
  expect(gaps(at(0) + nowhere + bare(5.00002) + at(2))).toEqual([1, 1, 0]);
  // every other one without: a sensor's entries between the fixes
  const alternating = [0, 2, 4, 6].map((second) => at(second) + nowhere).join('');
  expect(gaps(alternating)).toEqual([1, 0, 0, 0]);
  expect(told(alternating)).toEqual(['missing-position 4 track 1, segment 1, point 2']);
  // for longer than usual
  expect(gaps(seconds(0, 5) + nowhere.repeat(11) + at(16))).toEqual([1, 0, 0, 0, 0, 1]);
  expect(gaps(seconds(0, 2) + nowhere, seconds(2, 4))).toEqual([1, 0, 1, 0]);
});

test('points that stand in a track without a segment are read', () => {
  const [recording] = readGpx(`<gpx><trk>${seconds(0, 3)}</trk></gpx>`);
  expect(recording.lon.length).toBe(3);
});

test('what was dropped of a track that is left out is told too', () => {
  const recordings = readGpx(
    `<gpx><trk><trkseg>${seconds(0, 2)}</trkseg></trk><trk><trkseg>${point(0, 0)}${at(0)}</trkseg></trk></gpx>`,
  );
  expect(recordings.length).toBe(1);
  expect(recordings[0].issues.map(({ reason, count, place }) => `${reason} ${count} ${place}`)).toEqual([
    'zero-position 1 track 2, segment 1, point 1',
    'too-short 1 track 2',
  ]);
  expect(() => readGpx(`<gpx><trk><trkseg>${point(0, 0)}${at(0)}</trkseg></trk></gpx>`)).toThrow(
    'Dropped or mended zero-position: 1, first at track 1, segment 1, point 1; too-short: 1, first at track 1',
  );
});

test('more than 10 s and 5 usual intervals without a fix is a gap', () => {
  expect(gaps(seconds(0, 5) + at(15))).toEqual([1, 0, 0, 0, 0, 1]);
  expect(told(seconds(0, 5) + at(15))).toEqual(['time-gap 1 fix 5']);
  expect(gaps(seconds(0, 5) + at(14))).toEqual([1, 0, 0, 0, 0, 0]);
  // one fix in 4 s: up to 20 s is usual
  const sparse = [0, 4, 8, 12, 32, 36].map((second) => at(second)).join('');
  expect(gaps(sparse)).toEqual([1, 0, 0, 0, 0, 0]);
  expect(gaps(sparse + at(57))).toEqual([1, 0, 0, 0, 0, 0, 1]);
});

test('a fast traveller makes no jumps', () => {
  const metresPerDegree = 111_195 * Math.cos(Math.PI / 3);
  const drive = Array.from({ length: 20 }, (_, i) =>
    point(5 + (i * 30) / metresPerDegree, 60, `<time>${iso(i)}</time>`),
  ).join('');
  expect(told(drive)).toEqual([]);
});

test('a long run of one position is told: the receiver may have had no fix', () => {
  const still = Array.from({ length: 12 }, (_, i) => point(5, 60, `<time>${iso(i)}</time>`)).join('');
  expect(told(still)).toEqual(['frozen-position 11 fix 0']);
  expect(told(Array.from({ length: 10 }, (_, i) => point(5, 60, `<time>${iso(i)}</time>`)).join(''))).toEqual([]);
});

test('longitudes come within [-180, 180), and what was changed is told', () => {
  const segment = [179.9, 180, 180.1, -180, 540, -190].map((lon) => point(lon, 10)).join('');
  expect([...read(segment).lon].map((lon) => +lon.toFixed(6))).toEqual([179.9, -180, -179.9, -180, -180, 170]);
  expect(told(segment)).toEqual([`wrapped-longitude 4 track 1, segment 1, point 2`]);
});

test.each([
  ['2026-05-01T08:00:00Z', 0],
  ['2026-05-01T08:00:00.25Z', 0.25],
  ['2026-05-01T10:00:00+02:00', 0],
  ['2026-05-01T10:00:00+0200', 0],
  ['2026-05-01T03:30:00-04:30', 0],
  ['2026-05-01 08:00:00Z', 0],
  ['2026/05/01 08:00:00Z', 0],
  [' 2026-05-01T08:00Z ', 0],
  ['2026-05-01T07:59:60Z', 0],
  ['2026-04-30T24:00:00Z', -8 * 3600],
  ['2026-05-01T08:00:00.0001234Z', 0.0001234],
])('the time %s', (text, second) => {
  const { time } = read(`${point(5, 60, `<time>${text}</time>`)}${point(5, 60.00001)}`);
  expect(time![0]).toBeCloseTo(Date.UTC(2026, 4, 1, 8) + second * 1000, 3);
});

test.each([
  '2026-05-01',
  '2026-13-01T00:00:00Z',
  '2026-05-01T25:00:00Z',
  '2026-05-01T24:00:01Z',
  '2026-05-01T08:60:00Z',
  '2026-05-01T08:00:61Z',
  '1.5.2026 8:00',
  '2026-05-01T08:00:00+15:00',
  'Fri May 1 2026',
])('%s is no time', (text) => {
  expect(read(`${point(5, 60, `<time>${text}</time>`)}${point(5, 60.00001)}`).time).toBeUndefined();
});

test('extensions and prefixes do no harm, nor do elements of the same name elsewhere', () => {
  const odd = `<ext:time xmlns:ext="urn:x">${iso(0)}</ext:time>`;
  const [recording] = readGpx(
    `<g:gpx xmlns:g="http://www.topografix.com/GPX/1/0" version="1.0" creator="x"><g:time>noon</g:time><g:trk><g:name>a</g:name>
     <g:extensions><name>b</name></g:extensions><g:trkseg><g:trkpt lat="60" lon="5">${odd}<g:extensions><ele>9</ele><n:time xmlns:n="y">noon</n:time>
     </g:extensions></g:trkpt><g:trkpt lat="60" lon="5.1" p:lat="1" xmlns:p="z"/></g:trkseg></g:trk></g:gpx>`,
  );
  expect(recording.name).toBe('a');
  expect(recording.height).toBeUndefined();
  expect([...recording.time!]).toEqual([Date.parse(iso(0)), Number.NaN]);
  expect(recording.source).toEqual({ format: 'gpx', version: '1.0', creator: 'x' });
});

test('tracks are recordings, routes and waypoints are not, and told; a track too short is told', () => {
  const recordings = readGpx(
    `<gpx><wpt lat="60" lon="5"/><rte><rtept lat="60" lon="5"/></rte><trk><name>a</name><trkseg>${seconds(0, 3)}</trkseg></trk>
     <trk><trkseg>${at(0)}</trkseg></trk><trk><trkseg>${seconds(0, 2)}</trkseg></trk></gpx>`,
  );
  expect(recordings.map(({ name, lon }) => [name, lon.length])).toEqual([
    ['a', 3],
    ['track 2', 2],
  ]);
  for (const { issues } of recordings) {
    expect(issues.map(({ reason, count }) => `${reason} ${count}`)).toEqual(['not-recorded 2', 'too-short 1']);
  }
  expect(() => readGpx('<gpx><rte><rtept lat="60" lon="5"/></rte></gpx>')).toThrow('readLines reads its routes');
});

test('a bare & and blanks before the declaration are mended, and told', () => {
  const [recording] = readGpx(
    `\n <?xml version="1.0"?><gpx><trk><name>out & back</name><trkseg>${seconds(0, 2)}</trkseg></trk></gpx>`,
  );
  expect(recording.name).toBe('out & back');
  expect(recording.issues.map(({ reason }) => reason)).toEqual(['bare-ampersand', 'leading-blanks']);
});

test('what is never lost: numbers to the last digit', () => {
  const digits = ['60.123456789012345', '-0.000000001', '1e-7', '+5.5', '.5', '5.'];
  const segment = digits.map((text) => `<trkpt lat="${text}" lon="5"/>`).join('');
  expect([...read(segment).lat]).toEqual(digits.map(Number));
});

test('TCX: laps joined, pauses kept, positions lost dropped, distances stated summed', () => {
  const tp = (second: number, position = true) =>
    `<Trackpoint><Time>${iso(second)}</Time>${position ? `<Position><LatitudeDegrees>60</LatitudeDegrees><LongitudeDegrees>${5 + second * 2e-5}</LongitudeDegrees></Position>` : ''}<HeartRateBpm><Value>120</Value></HeartRateBpm></Trackpoint>`;
  const lap = (metres: number, ...tracks: string[]) =>
    `<Lap><DistanceMeters>${metres}</DistanceMeters>${tracks.map((t) => `<Track>${t}</Track>`).join('')}</Lap>`;
  const [recording, second] = readTcx(
    ` <?xml version="1.0"?><TrainingCenterDatabase xmlns="urn:any"><Activities><Activity Sport="Biking"><Id>x</Id>
     ${lap(2.5, tp(0) + tp(1), tp(2) + tp(3))}${lap(1, tp(3) + tp(4) + tp(5, false) + tp(6))}<Creator><Name>r</Name><UnitId>7</UnitId></Creator></Activity>
     <MultiSportSession><FirstSport><Activity Sport="Running">${lap(1, tp(0) + tp(1))}</Activity></FirstSport></MultiSportSession></Activities>
     <Courses><Course><Name>c</Name></Course></Courses></TrainingCenterDatabase>`,
  );
  expect([...recording.time!].map((time) => (time - Date.parse(iso(0))) / 1000)).toEqual([0, 1, 2, 3, 4, 6]);
  expect([...recording.gapBefore]).toEqual([1, 0, 1, 0, 0, 0]);
  expect(recording.attributes).toEqual({ Sport: 'Biking', Id: 'x', DistanceMeters: 3.5 });
  // the Id is the time it began, which a name would give away
  expect(recording.name).toBe('track 1');
  expect(recording.source).toEqual({ format: 'tcx', creator: 'r' });
  expect(second.attributes).toEqual({ Sport: 'Running', DistanceMeters: 1 });
  expect(recording.issues.map(({ reason, count }) => `${reason} ${count}`)).toEqual([
    'repeated-fix 1',
    'missing-position 1',
    'not-recorded 1',
    'leading-blanks 1',
  ]);
});

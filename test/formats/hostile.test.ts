import { readdirSync, readFileSync } from 'node:fs';
import { InputError, readCsv, readGeoJson, readGpx, readKml, readNmea, readRecordings, readTcx } from 'datumline';
import { gzipSync, zipSync } from 'fflate';
import { afterEach, expect, test, vi } from 'vitest';

afterEach(() => {
  vi.unstubAllGlobals();
});

const track = '<trk><trkseg><trkpt lat="60" lon="5"/><trkpt lat="60.0001" lon="5"/></trkseg></trk>';
const lol = Array.from({ length: 9 }, (_, i) => `<!ENTITY lol${i + 1} "${`&lol${i};`.repeat(10)}">`).join('');

test.each<[string, () => unknown, string, string]>([
  [
    'entities that grow a billionfold',
    () =>
      readGpx(`<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY lol0 "lol">${lol}]><gpx><name>&lol9;</name>${track}</gpx>`),
    'unreadable',
    'data line 1, column 22 must be XML without a document type declaration',
  ],
  [
    'an entity from outside',
    () => readGpx(`<!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/passwd">]><gpx><name>&x;</name>${track}</gpx>`),
    'unreadable',
    'must be XML without a document type declaration',
  ],
  [
    'an entity that nothing declares',
    () => readGpx(`<gpx><trk><name>&x;</name></trk>${track}</gpx>`),
    'unreadable',
    'undefined entity',
  ],
  [
    '100 MB of <',
    () => readGpx('<'.repeat(100e6)),
    'unreadable',
    'data line 1, column 2 must be well-formed XML (disallowed character in tag name)',
  ],
  [
    '100 MB of < as bytes',
    () => readGpx(new Uint8Array(100e6).fill(60)),
    'unreadable',
    'must be well-formed XML (disallowed character in tag name)',
  ],
  ['100 MB of blanks', () => readGpx(' '.repeat(100e6)), 'too-few', 'data must be a document that is not empty'],
  [
    '100 MB of & in a name',
    () => readGpx(`<gpx><trk><name>${'&'.repeat(100e6)}`),
    'too-large',
    'at most 1000000 ampersands',
  ],
  [
    '5 MB of line ends in a literal part',
    () => readGpx(`<gpx><trk><name><![CDATA[${'\r'.repeat(5e6)}]]>`),
    'unreadable',
    'unclosed tag: name',
  ],
  [
    '10 000-deep nesting',
    () => readGpx(`<gpx>${'<a>'.repeat(10_000)}${'</a>'.repeat(10_000)}${track}</gpx>`),
    'too-large',
    'data nesting must be at most 256 elements deep',
  ],
  ['10 000-deep KML folders', () => readKml(`<kml>${'<Folder>'.repeat(10_000)}`), 'too-large', 'data nesting must be'],
  [
    '10 000-deep training',
    () => readTcx(`<TrainingCenterDatabase>${'<a>'.repeat(10_000)}`),
    'too-large',
    'data nesting',
  ],
  ['10 000-deep JSON', () => readGeoJson('['.repeat(10_000)), 'too-large', 'data nesting must be at most 256 arrays'],
  [
    '10 000-deep collections',
    () => readGeoJson(`{"type":"GeometryCollection","geometries":[`.repeat(10_000)),
    'too-large',
    'data nesting',
  ],
  ['50 MB of [', () => readGeoJson(`{"a":${'['.repeat(50e6)}`), 'too-large', 'data nesting'],
  [
    'a CSV row of 10 MB',
    () => readCsv(`lat,lon\n60,5${'9'.repeat(10e6)}\n`),
    'too-large',
    'data line 2 must be a row of at most 65536',
  ],
  [
    'a quoted CSV cell of 10 MB',
    () => readCsv(`lat,lon\n60,"5${'9'.repeat(10e6)}"\n`),
    'too-large',
    'data line 2 must be a row of',
  ],
  ['a CSV header of 10 MB', () => readCsv('x'.repeat(10e6)), 'too-large', 'data line 1 must be a row of at most 65536'],
  ['10 MB of quotes', () => readCsv(`lat,lon\n${'"'.repeat(10e6)}`), 'too-large', 'data line 2'],
  ['10 MB of $ in a log', () => readNmea('$'.repeat(10e6)), 'unreadable', 'data must be an NMEA 0183 log with a whole'],
  [
    '10 MB of a comment that does not end',
    () => readGpx(`<gpx><!--${'- '.repeat(5e6)}`),
    'unreadable',
    'unclosed tag: gpx',
  ],
  ['a text too long', () => readGpx(`${'x'.repeat(2 ** 28)}x`), 'too-large', 'data must be at most 268435456 bytes'],
])('%s is refused', (_, read, reason, message) => {
  let caught: unknown;
  try {
    read();
  } catch (error) {
    caught = error;
  }
  expect(caught).toBeInstanceOf(InputError);
  expect(caught).toMatchObject({ reason, message: expect.stringContaining(message) });
});

test('what unpacks to more than may be read is refused before it is unpacked', async () => {
  const member = gzipSync(new Uint8Array(2 ** 24).fill(32), { level: 1 });
  const bomb = new Uint8Array(member.length * 17);
  for (let i = 0; i < 17; i++) bomb.set(member, i * member.length);
  await expect(readRecordings(bomb)).rejects.toMatchObject({ reason: 'too-large' });
  /** The archive with another size in its directory than the 16 MB that its document has. */
  const archive = zipSync({ 'doc.kml': new Uint8Array(2 ** 24) }, { level: 1 });
  const saying = (size: number) => {
    const lying = Uint8Array.from(archive);
    const view = new DataView(lying.buffer);
    for (let at = 0; at + 4 < lying.length; at++) {
      if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, size, true);
    }
    return lying;
  };
  await expect(readRecordings(saying(2 ** 28 + 1))).rejects.toMatchObject({ reason: 'too-large' });
  // one that lies is left as soon as more comes out than it says, and one that says too much is no whole archive
  await expect(readRecordings(saying(20))).rejects.toMatchObject({ reason: 'unreadable' });
  await expect(readRecordings(saying(2 ** 24 + 1))).rejects.toMatchObject({ reason: 'unreadable' });
});

test('a log with a sentence in 100 MB of noise is gone through', () => {
  const noise = 'x$y\n'.repeat(1e6);
  const [recording] = readNmea(
    `${noise}$GPGGA,000000,6000.000,N,00500.000,E,1,,,,,,,\n${noise}$GPGGA,000001,6000.001,N,00500.000,E,1,,,,,,,\n`,
  );
  expect(recording.issues.find(({ reason }) => reason === 'not-a-sentence')).toMatchObject({
    count: 2e6,
    place: 'line 1',
  });
});

test('nothing is fetched, whatever a document links to', async () => {
  const fetched = vi.fn();
  vi.stubGlobal('fetch', fetched);
  vi.stubGlobal('XMLHttpRequest', fetched);
  const [recording] = await readRecordings(
    `<kml xmlns:xi="http://www.w3.org/2001/XInclude"><Document><NetworkLink><Link><href>http://example.invalid/a.kml</href></Link>
    </NetworkLink><xi:include href="http://example.invalid/b.kml"/><Placemark><LineString><coordinates>5,60 5.1,60</coordinates>
    </LineString></Placemark></Document></kml>`,
  );
  expect(fetched).not.toHaveBeenCalled();
  expect(recording.issues).toMatchObject([{ reason: 'network-link', count: 1 }]);
});

test('no reader or writer has the means to reach a network or a file', () => {
  const folder = new URL('../../src/formats/', import.meta.url);
  const files = readdirSync(folder);
  expect(files.length).toBeGreaterThan(40);
  for (const file of files) {
    const text = readFileSync(new URL(file, folder), 'utf8');
    expect(text, file).not.toMatch(/\bfetch\(|XMLHttpRequest|WebSocket|from 'node:|require\(/);
  }
});

test('keys that stand for something in JavaScript are only words', () => {
  const [recording] = readGeoJson(
    '{"type":"Feature","properties":{"__proto__":{"a":1},"constructor":"b","attributes":{"__proto__":"c"}},' +
      '"geometry":{"type":"LineString","coordinates":[[5,60],[5.1,60]]}}',
  );
  expect(({} as { a?: number }).a).toBeUndefined();
  expect(recording.attributes.constructor).toBe('b');
});

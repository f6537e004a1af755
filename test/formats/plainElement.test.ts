import { SaxesParser } from 'saxes';
import { describe, expect, test } from 'vitest';
import { XmlReader } from '../../src/formats/XmlReader';
import { malformedXml } from '../published/malformedXml';
import { changeText, nasty } from '../support/mutations';
import { seeded } from '../support/randomLine';
import { sampleFiles } from '../support/sampleFiles';

type Told = readonly (readonly [what: string, where: number, attributes?: object])[];

/** What the reader tells, with the index after each tag; and the error that ends it. */
function told(document: string | Uint8Array): { events: Told; error?: string } {
  const events: [string, number, object?][] = [];
  const open: { text: string }[] = [];
  try {
    const xml = new XmlReader(document);
    for (let event = xml.next(); event !== 'end'; event = xml.next()) {
      const place = /column (\d+)/.exec(xml.place())!;
      if (event === 'open') {
        open.push({ text: '' });
        const known = ['lat', 'lon', 'version', 'a', 'name', 'x:b'].map((key) => [key, xml.attribute(key)]);
        events.push([`<${xml.name}`, Number(place[1]), Object.fromEntries(known)]);
      } else {
        open.pop();
        events.push(['>', Number(place[1])]);
      }
    }
    return { events };
  } catch (error) {
    return { events, error: (error as Error).message };
  }
}

/** The same by the parser alone, given the document at once. */
function parsed(document: string): { events: Told; failed: boolean } {
  const events: [string, number, object?][] = [];
  const parser = new SaxesParser({ xmlns: false, defaultXMLVersion: '1.0', forceXMLVersion: true });
  let failed = false;
  const column = () => parser.position - (document.lastIndexOf('\n', parser.position - 1) + 1) + 1;
  parser.on('error', () => {
    failed = true;
    throw new Error('stop');
  });
  parser.on('doctype', () => {
    failed = true;
    throw new Error('stop');
  });
  parser.on('opentag', ({ name, attributes }) => {
    const known = ['lat', 'lon', 'version', 'a', 'name', 'x:b'].map((key) => [
      key,
      (attributes as Record<string, string>)[key],
    ]);
    events.push([`<${name.slice(name.lastIndexOf(':') + 1)}`, column(), Object.fromEntries(known)]);
  });
  parser.on('closetag', () => events.push(['>', column()]));
  try {
    parser.write(document).close();
  } catch {}
  return { events, failed };
}

/** The texts of all elements, in the order in which they close. */
function texts(document: string): string[] {
  const found: string[] = [];
  const open: { text: string; fresh: boolean }[] = [];
  const parser = new SaxesParser({ xmlns: false, defaultXMLVersion: '1.0', forceXMLVersion: true });
  const add = (text: string) => {
    const top = open.at(-1);
    if (top && (top.fresh || text.trim() !== '')) top.text += text;
  };
  parser.on('text', add);
  parser.on('cdata', add);
  parser.on('opentag', () => {
    open.push({ text: '', fresh: true });
  });
  parser.on('closetag', () => {
    found.push(open.pop()!.text);
    if (open.length > 0) open.at(-1)!.fresh = false;
  });
  parser.write(document).close();
  return found;
}

/** The same by the reader, asked for each in turn, since an element's text is asked for in place of its children. */
function textsRead(document: string): string[] {
  const { events } = parsed(document);
  return events.flatMap(([what], close) => {
    if (what !== '>') return [];
    // where it opened
    let open = close;
    for (let depth = 1; depth > 0; ) depth += events[--open][0] === '>' ? 1 : -1;
    const xml = new XmlReader(document);
    for (let skip = 0; skip <= open; skip++) xml.next();
    return [xml.content()];
  });
}

const point = (i: number) =>
  `<trkpt lat="${60 + i / 1e5}" lon='5'>\r\n <ele>${i}</ele>\n\t<time>2031-05-01T08:00:00Z</time>${i % 7 === 0 ? '<!-- > --><sym>]]&gt; é</sym>' : ''}\n</trkpt>`;
const long = (points: number) =>
  `<?xml version="1.0"?>\n<gpx version="1.1" xmlns:x="urn:x"> <metadata><name>a</name></metadata>\n<trk><name>a &amp; b</name><trkseg>\n${Array.from({ length: points }, (_, i) => point(i)).join('\n')}</trkseg></trk></gpx>\n`;

describe('what is read past the parser is what the parser reads', () => {
  test('a document of many pieces, its tags where they are', () => {
    const document = long(900);
    expect(document.length).toBeGreaterThan(5 * 16_384);
    const { events, error } = told(document);
    expect(error).toBeUndefined();
    expect(events).toEqual(parsed(document).events);
    // bytes are decoded piece by piece, where nothing is to be mended in the whole
    const plain = document.replace(/&\w+;/g, '').replaceAll(']]', '');
    expect(told(new TextEncoder().encode(plain)).events).toEqual(parsed(plain).events);
  });

  test('the text of every element', () => {
    const document = long(9).replace('<trk>', '<trk> \r\n<a/>x<b> \r y</b> \n');
    expect(textsRead(document)).toEqual(texts(document));
  });

  test.each(['gpx', 'tcx', 'kml'] as const)(
    '%s changed here and there: the same tags, refused where the parser refuses',
    (key) => {
      const text = new TextDecoder()
        .decode(sampleFiles[key])
        .replace(/&[^;]*;|\p{Surrogate}|[\u{10000}-\u{10ffff}]/gu, '');
      const random = seeded(11);
      const kinds = ['cut', 'remove', 'double', 'move', 'insert', 'replace', 'swap'] as const;
      const own = ['<a b>', '<a b="1" b="2"/>', '<a b="<"/>', '</ a>', '</a >', '<a  b="1"/>', '<a b = "1"/>', '<1/>', ']]>', '<a\n/>', '<a b="\t"/>', '<a b="1"c="2"/>', '\u0001', '<a:b:c/>', '<a//>', '<a/ >', '< a/>', '<a></b>', '\r', '<a>\r\n</a>', '<a b=1/>', '<a b=""/>']; // biome-ignore format: a list
      let refused = 0;
      for (let round = 0; round < 1500; round++) {
        const changes = Array.from({ length: 1 + Math.floor(random() * 3) }, () => ({
          kind: kinds[Math.floor(random() * kinds.length)],
          ...{ at: random(), to: random(), length: 1 + Math.floor(random() * 60) },
          word: random() < 0.6 ? own[Math.floor(random() * own.length)] : nasty[Math.floor(random() * nasty.length)],
        }));
        const document = changeText(text, changes);
        // these the reader judges before any parser, or mends
        if (/&|\p{Surrogate}/u.test(document) || !document.startsWith('<')) continue;
        const expected = parsed(document);
        const { events, error } = told(document);
        expect(error !== undefined, document).toBe(expected.failed);
        expect(events, document).toEqual(expected.events.slice(0, events.length));
        if (expected.failed) refused++;
        else expect(events.length, document).toBe(expected.events.length);
      }
      expect(refused).toBeGreaterThan(300);
    },
  );

  const judged = malformedXml.filter(([, document]) => !/&|\p{Surrogate}/u.test(document));
  test.each(judged)('production %s: %j within an element is refused', (_, document) => {
    const within = `<gpx><a>${document.replace(/^<\?xml.*?\?>/, '')}</a></gpx>`;
    expect(told(within).error !== undefined).toBe(parsed(within).failed);
  });
});

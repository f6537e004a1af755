import { readGpx } from 'datumline';
import fc from 'fast-check';
import { XMLBuilder, XMLParser } from 'fast-xml-parser';
import { expect, test } from 'vitest';
import { XmlReader } from '../../src/formats/XmlReader';
import { InputError } from '../../src/model';
import { malformedXml } from '../published/malformedXml';

/** An element as the reader gives it. */
interface Element {
  readonly name: string;
  readonly children: Element[];
  readonly text: string;
}

function elementOf(document: string): Element {
  const xml = new XmlReader(document);
  const open: Element[] = [{ name: '', children: [], text: '' }];
  for (let event = xml.next(); event !== 'end'; event = xml.next()) {
    if (event === 'close') open.pop();
    else {
      const element = { name: xml.name, children: [], text: '' };
      open[open.length - 1].children.push(element);
      open.push(element);
    }
  }
  return open[0].children[0];
}

test.each(malformedXml)('production %s: %j is refused', (_, document) => {
  expect(() => elementOf(document)).toThrow(InputError);
});

const textOf = (document: string) => {
  const xml = new XmlReader(document);
  xml.next();
  return xml.content();
};

// XML 1.0: 2.11 line ends, 4.1 references, 2.7 CDATA sections, 2.5 comments
test.each<[string, string]>([
  ['<a/>', ''],
  ['<a></a >', ''],
  ['<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n<!-- c --><?d e?><a>b</a>\n<!-- f -->', 'b'],
  [`<?xml version='1.1'?><a>b</a>`, 'b'],
  ['<a>b &lt;&gt;&amp;&quot;&apos; &#65;&#x1F600; c</a>', `b <>&"' A\u{1f600} c`],
  ['<a><![CDATA[<b>&amp;]] >]]></a>', '<b>&amp;]] >'],
  ['<a>b\r\nc\rd</a>', 'b\nc\nd'],
  ['<a>]]&gt; ]] ></a>', ']]> ]] >'],
  ['<_.-9é名>x</_.-9é名>', 'x'],
  ['<a> \t</a>', ' \t'],
  ['<a>b<c>d</c>e<!-- f -->g<![CDATA[h]]></a>', 'begh'],
  ['<a>&#9;&#10;&#13;</a>', '\t\n\r'],
])('the text of %j', (document, expected) => {
  expect(textOf(document)).toBe(expected);
});

test('names are given without their prefix, declared or not', () => {
  const xml = new XmlReader('<p:a><q:b:c/></p:a>');
  expect([xml.next(), xml.name, xml.next(), xml.name]).toEqual(['open', 'a', 'open', 'c']);
});

test('attribute values: references replaced, line ends and tabs made blanks', () => {
  const xml = new XmlReader(`<a b='1 "2"' c = "&lt;\t&#9;\r\n&#10;d" e="" __proto__="f"/>`);
  xml.next();
  expect(['b', 'c', 'e', 'f', '__proto__'].map((name) => xml.attribute(name))).toEqual([
    '1 "2"',
    '< \t \nd',
    '',
    undefined,
    'f',
  ]);
});

test('a bare & is taken as itself, and its place is known', () => {
  const xml = new XmlReader('<a>\n<b c="d & e">f && g &h i<!-- & --><![CDATA[&]]></b></a>');
  expect([xml.next(), xml.next(), xml.attribute('c'), xml.content()]).toEqual([
    'open',
    'open',
    'd & e',
    'f && g &h i&',
  ]);
  expect([xml.bareAmpersands.length, xml.placeOf(xml.bareAmpersands[0])]).toEqual([4, 'line 2, column 9']);
  // the places after it are those of the document as it is
  expect(() => elementOf('<a>& & &<b></c></a>')).toThrow(/^data line 1, column 15 must be/);
});

test('eachChild visits direct children whatever their visitor leaves unread', () => {
  const xml = new XmlReader('<a><b><c/>t</b><d/>t<e><f><g/></f></e></a>');
  xml.next();
  const seen: string[] = [];
  xml.eachChild((name) => {
    seen.push(name);
    if (name === 'e') xml.next();
  });
  expect(seen).toEqual(['b', 'd', 'e']);
  expect(xml.next()).toBe('end');
});

test('what stands before a fault is read before the fault is told', () => {
  const xml = new XmlReader('<a><b/><c><1/></c></a>');
  expect([xml.next(), xml.next(), xml.next(), xml.next()]).toEqual(['open', 'open', 'close', 'open']);
  expect(() => xml.next()).toThrow(InputError);
  expect(() => xml.next()).toThrow(InputError);
});

test('a tag takes time as its attributes are many, not as their square', () => {
  const document = (count: number) =>
    `<gpx ${Array.from({ length: count }, (_, i) => `a${i}=""`).join(' ')}><trk><trkseg><trkpt lat="60" lon="5"/><trkpt lat="61" lon="5"/></trkseg></trk></gpx>`;
  const least = (count: number) => {
    const text = document(count);
    return Math.min(
      ...Array.from({ length: 3 }, () => {
        const { user } = process.cpuUsage();
        readGpx(text);
        return process.cpuUsage().user - user;
      }),
    );
  };
  least(2_500);
  // 16 times as many: 256 times the work, were each held against each
  expect(least(40_000) / Math.max(least(2_500), 1000)).toBeLessThan(80);
});

const texts = fc.string({ unit: 'grapheme', maxLength: 6 }).filter((text) => text.trim() === text);
const trees = fc.letrec<{ tree: Element }>((tie) => ({
  tree: fc.record({
    name: fc.constantFrom('a', 'b', 'trkpt', 'é', '_.-9'),
    children: fc.oneof({ maxDepth: 4 }, fc.constant<Element[]>([]), fc.array(tie('tree'), { maxLength: 3 })),
    text: texts,
  }),
})).tree;

test('trees that a general builder writes are read as they are, and as its parser reads them', () => {
  const ordered = ({ name, children, text }: Element): object => ({
    [name]: [...children.map(ordered), ...(text === '' ? [] : [{ '#text': text }])],
  });
  const builder = new XMLBuilder({ preserveOrder: true });
  const parser = new XMLParser({ preserveOrder: true, parseTagValue: false, trimValues: false });
  const read = (document: string) => {
    const xml = new XmlReader(document);
    const inside = (): object => {
      const { name } = xml;
      const depth = xml.depth;
      const children: object[] = [];
      while (xml.next() === 'open') children.push(inside());
      expect(xml.depth).toBe(depth - 1);
      return { [name]: children };
    };
    xml.next();
    return inside();
  };
  const bare = (tree: object): object =>
    Object.fromEntries(
      Object.entries(tree as Record<string, object[]>).map(([name, children]) => [
        name,
        children.filter((child) => !('#text' in child)).map(bare),
      ]),
    );
  fc.assert(
    fc.property(trees, (tree) => {
      const document = builder.build([ordered(tree)]);
      expect(read(document)).toEqual(bare(ordered(tree)));
      expect(read(document)).toEqual(bare(parser.parse(document)[0]));
      expect(textOf(document)).toBe(tree.text);
    }),
    { seed: 12, numRuns: 300 },
  );
});

import fc from 'fast-check';
import { XMLValidator } from 'fast-xml-parser';
import { JSDOM } from 'jsdom';
import { expect, test } from 'vitest';
import { XmlScanner } from '../../src/formats/XmlScanner';
import { InputError } from '../../src/model/InputError';
import { changeText, textChanges } from '../support/mutations';
import { sampleFiles } from '../support/sampleFiles';

/** Everything the scanner gives of a document, one line an event. */
function events(document: string): string[] {
  const xml = new XmlScanner(document);
  const out: string[] = [];
  for (;;) {
    const event = xml.next();
    if (event === 'end') return out;
    out.push(event === 'text' ? `text ${xml.text}` : `${event} ${xml.name}`);
  }
}

function accepts(document: string): boolean {
  try {
    events(document);
    return true;
  } catch (error) {
    if (error instanceof InputError) return false;
    throw error;
  }
}

/** A general validating-namespace-free judge: the DOM parser of jsdom. */
const { DOMParser } = new JSDOM('').window;
const judge = (document: string) =>
  new DOMParser().parseFromString(document, 'application/xml').getElementsByTagName('parsererror').length === 0;

// Extensible Markup Language (XML) 1.0, fifth edition: what each production and constraint in the first column forbids.
const malformed: [string, string][] = [
  ['1 document: one element', ''],
  ['1 document: one element', '<!-- only -->'],
  ['1 document: one outermost element', '<a/><b/>'],
  ['1 document: text within elements only', '<a/>b'],
  ['1 document: text within elements only', 'b<a/>'],
  ['1 document: literal parts within elements only', '<a/><![CDATA[b]]>'],
  ['2 Char', '<a>\u0000</a>'],
  ['2 Char', '<a>\u0008</a>'],
  ['2 Char', '<a>\u001f</a>'],
  ['2 Char', '<a>\ufffe</a>'],
  ['2 Char', '<a>\uffff</a>'],
  ['2 Char', '<a>\ud800</a>'],
  ['2 Char', '<a>\udc00</a>'],
  ['2 Char in an attribute', '<a b="\u0001"/>'],
  ['2 Char in a comment', '<a><!--\u0001--></a>'],
  ['2 Char in a literal part', '<a><![CDATA[\u0001]]></a>'],
  ['4 NameStartChar', '<1a/>'],
  ['4 NameStartChar', '<-a/>'],
  ['4 NameStartChar', '<.a/>'],
  ['4 NameStartChar', '< a/>'],
  ['4 NameStartChar', '<\u00d7/>'],
  ['4 NameStartChar', '<\u0300/>'],
  ['4a NameChar', '<a\u00d7/>'],
  ['10 AttValue: in quotes', '<a b=c/>'],
  ['10 AttValue: the same quote', `<a b="c'/>`],
  ['10 AttValue: no <', '<a b="<"/>'],
  ['10 AttValue: there', '<a b/>'],
  ['10 AttValue: there', '<a b=/>'],
  ['14 CharData: no ]]>', '<a>]]></a>'],
  ['15 Comment: no --', '<a><!-- -- --></a>'],
  ['15 Comment: no --->', '<a><!-- ---></a>'],
  ['15 Comment: ends', '<a><!-- </a>'],
  ['15 Comment: ends', '<a><!-></a>'],
  ['16 PI: ends', '<a><?b </a>'],
  ['16 PI: a blank after the target', '<a><?b"c"?></a>'],
  ['17 PITarget: a name', '<a><? b?></a>'],
  ['17 PITarget: not xml', '<a><?xml version="1.0"?></a>'],
  ['17 PITarget: not XML', '<a><?XmL b?></a>'],
  ['18 CDSect: ends', '<a><![CDATA[</a>'],
  ['19 CDStart', '<a><![cdata[b]]></a>'],
  ['22 prolog: the declaration comes first', ' <?xml version="1.0"?><a/>'],
  ['23 XMLDecl: version', '<?xml encoding="UTF-8"?><a/>'],
  ['23 XMLDecl: ends', '<?xml version="1.0"><a/>'],
  ['23 XMLDecl: order', '<?xml version="1.0" standalone="yes" encoding="UTF-8"?><a/>'],
  ['32 SDDecl', '<?xml version="1.0" standalone="maybe"?><a/>'],
  ['39 element: closed', '<a>'],
  ['39 element: closed', '<a><b></a>'],
  ['39 element: closed', '<a'],
  ['39 element: closed', '<a b="c"'],
  ['39 element: closed by its own name', '<a></b>'],
  ['39 element: closed by its own name', '<a></ab>'],
  ['39 element: closed by its own name', '<ab></a>'],
  ['39 element: closed by its own name', '<a></A>'],
  ['39 element: nothing to close', '</a>'],
  ['40 STag: unique attributes', '<a b="1" b="2"/>'],
  ['40 STag: a blank between', '<a b="1"c="2"/>'],
  ['42 ETag: no attributes', '<a></a b="c">'],
  ['42 ETag: no blank before', '<a></ a>'],
  ['44 EmptyElemTag', '<a/ >'],
  ['66 CharRef: a character', '<a>&#0;</a>'],
  ['66 CharRef: a character', '<a>&#xD800;</a>'],
  ['66 CharRef: a character', '<a>&#xFFFE;</a>'],
  ['66 CharRef: a character', '<a>&#x110000;</a>'],
  ['66 CharRef: digits', '<a>&#;</a>'],
  ['66 CharRef: digits', '<a>&#x;</a>'],
  ['66 CharRef: digits', '<a>&#1a;</a>'],
  ['66 CharRef: lower case x', '<a>&#X41;</a>'],
  ['66 CharRef: ends', '<a>&#65</a>'],
  ['68 EntityRef: declared', '<a>&b;</a>'],
  ['68 EntityRef: declared', '<a b="&c;"/>'],
];

test.each(malformed)('production %s: %j is refused', (_, document) => {
  expect(judge(document), 'the judge refuses it').toBe(false);
  expect(accepts(document)).toBe(false);
});

test.each<[string, string[]]>([
  ['<a/>', ['open a', 'close a']],
  ['<a></a >', ['open a', 'close a']],
  ['<p:a xmlns:p="u"><p:b/></p:a>', ['open a', 'open b', 'close b', 'close a']],
  ['<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n<!-- c --><?d e?><a/>\n<!-- f -->', ['open a', 'close a']],
  [`<?xml version='1.1'?><a/>`, ['open a', 'close a']],
  ['<a>b &lt;&gt;&amp;&quot;&apos; &#65;&#x1F600; c</a>', ['open a', `text b <>&"' A\u{1f600} c`, 'close a']],
  ['<a><![CDATA[<b>&amp;]] >]]></a>', ['open a', 'text <b>&amp;]] >', 'close a']],
  ['<a>b\r\nc\rd</a>', ['open a', 'text b\nc\nd', 'close a']],
  ['<a>]]&gt; ]] ></a>', ['open a', 'text ]]> ]] >', 'close a']],
  ['<_.-9é名>x</_.-9é名>', ['open _.-9é名', 'text x', 'close _.-9é名']],
  ['<a><b/> <b> </b>\n</a>', ['open a', 'open b', 'close b', 'open b', 'close b', 'close a']],
])('%j is gone through', (document, expected) => {
  expect(judge(document), 'the judge takes it').toBe(true);
  expect(events(document)).toEqual(expected);
});

test('attribute values: references replaced, line ends and tabs made blanks', () => {
  const xml = new XmlScanner(`<a b='1 "2"' c = "&lt;\t&#9;\r\n&#10;d" e=""/>`);
  xml.next();
  expect(xml.attribute('b')).toBe('1 "2"');
  expect(xml.attribute('c')).toBe('< \t \nd');
  expect(xml.attribute('e')).toBe('');
  expect(xml.attribute('f')).toBeUndefined();
});

test('a bare & is taken as itself, counted and placed', () => {
  const xml = new XmlScanner('<a>\n<b c="d & e">f && g &h i</b></a>');
  expect([xml.next(), xml.next(), xml.next()]).toEqual(['open', 'open', 'text']);
  expect([xml.attribute('c'), xml.text]).toEqual(['d & e', 'f && g &h i']);
  expect([xml.bareAmpersands, xml.bareAmpersandPlace]).toEqual([4, 'line 2, column 9']);
});

test('content is the own text of an element, children passed over', () => {
  const xml = new XmlScanner('<a>b<c>d</c>e<!-- f -->g<![CDATA[h]]></a>');
  xml.next();
  expect(xml.content()).toBe('begh');
  expect(xml.next()).toBe('end');
});

test('eachChild visits direct children whatever their visitor leaves unread', () => {
  const xml = new XmlScanner('<a><b><c/>t</b><d/>t<e><f><g/></f></e></a>');
  xml.next();
  const seen: string[] = [];
  xml.eachChild((name) => {
    seen.push(name);
    if (name === 'e') xml.next();
  });
  expect(seen).toEqual(['b', 'd', 'e']);
  expect(xml.next()).toBe('end');
});

/** Outside what the judges and the scanner are asked to agree on: entities, document types, bare &, undeclared prefixes. */
const elsewhere = (document: string) => /<!DOCTYPE|&(?!(?:lt|gt|amp|quot|apos|#\d+|#x[0-9a-fA-F]+);)/.test(document);

test('on changed documents it is as strict as the DOM parser, and as the replaced parser with its validator', () => {
  const text = new TextDecoder().decode(sampleFiles.gpx).slice(0, 1200).replaceAll('x:', '');
  const whole = `${text.slice(0, text.lastIndexOf('<trkpt'))}</trkseg></trk></gpx>`;
  expect(judge(whole)).toBe(true);
  const seen = { taken: 0, refused: 0, laxer: 0 };
  fc.assert(
    fc.property(textChanges, (changes) => {
      const document = changeText(whole, changes);
      fc.pre(!elsewhere(document) && document.charCodeAt(0) !== 0xfeff);
      const ours = accepts(document);
      seen[ours ? 'taken' : 'refused']++;
      if (ours !== judge(document)) {
        // the judge minds what the scanner does not claim to: prefixes that nothing declares, and a declaration's encoding
        const minded = /<\/?[\w.-]*:|\s[\w.-]*:[\w.-]*\s*=|xmlns|encoding/.test(
          document.replace(' xmlns="http://www.topografix.com/GPX/1/1" xmlns:x="urn:x"', ''),
        );
        expect(minded && ours, document).toBe(true);
      }
      if (ours && XMLValidator.validate(document) !== true) seen.laxer++;
    }),
    { seed: 11, numRuns: 1500 },
  );
  expect(seen.taken).toBeGreaterThan(50);
  expect(seen.refused).toBeGreaterThan(500);
  expect(seen.laxer).toBe(0);
});

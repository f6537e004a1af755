import fc from 'fast-check';
import { JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { type Content, element, fragment, type Takes } from '../../src/report/element';
import { Markup } from '../../src/report/Markup';

/** Every character that means something to HTML or XML, and what could close what it stands in. */
const hostile = `</script></style></title><!-- ]]> <img src=x onerror='a()'> & &amp; &#60; "double" 'single' = \` \\`;

const { DOMParser } = new JSDOM().window;
const parsed = (markup: Markup) => new DOMParser().parseFromString(`<body>${markup}</body>`, 'text/html').body;
const parsedXml = (markup: Markup) => new DOMParser().parseFromString(markup.text, 'image/svg+xml').documentElement;

describe('text', () => {
  test('is only ever text, in every element that holds some', () => {
    const holders: readonly Markup[] = [
      <p>{hostile}</p>,
      <td>{hostile}</td>,
      <li>{hostile}</li>,
      <bdi>{hostile}</bdi>,
      <text>{hostile}</text>,
      <desc>{hostile}</desc>,
      <title>{hostile}</title>,
      <code>{[[hostile]]}</code>,
      <h1>{fragment({ children: hostile })}</h1>,
    ];
    for (const markup of holders) {
      const root = parsedXml(markup);
      expect(root.textContent).toBe(hostile);
      expect(root.children).toHaveLength(0);
    }
  });

  test('written in the code is escaped as that from data', () => {
    expect((<p>a &lt; b &amp; “c” {'<d>'}</p>).text).toBe('<p>a &lt; b &amp; “c” &lt;d&gt;</p>');
  });

  test('any text comes back from an HTML and an XML parser as it went in, but for what neither may hold', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (text) => {
        const held = text
          .replace(/[\t\n\r]/g, ' ')
          .replace(/[\p{Cc}\p{Cs}\u202A-\u202E\u2066-\u2069\uFFFE\uFFFF]/gu, '\uFFFD');
        const markup = <p id={text}>{text}</p>;
        for (const p of [parsed(markup).querySelector('p')!, parsedXml(markup)]) {
          expect(p.textContent).toBe(held);
          expect(p.getAttribute('id')).toBe(held);
          expect(p.attributes).toHaveLength(1);
        }
      }),
      { seed: 3, numRuns: 300 },
    );
  });
});

describe('attributes', () => {
  test('hold their value and end nowhere else, whatever their name', () => {
    const markup = <g transform={hostile} class={hostile} id={hostile} data-place={hostile} aria-label={hostile} />;
    for (const g of [parsed(markup).querySelector('g')!, parsedXml(markup)]) {
      expect([...g.attributes].map(({ value }) => value)).toEqual(Array(5).fill(hostile));
      expect(g.childNodes).toHaveLength(0);
    }
  });

  test('true stands without a value; false, null and undefined leave nothing; 0 and empty text stand', () => {
    expect((<button type="button" hidden data-point />).text).toBe('<button type="button" hidden data-point></button>');
    expect((<p hidden={false} id={undefined} class={null} />).text).toBe('<p></p>');
    expect((<p tabindex={0} class="" data-at={-1.5} />).text).toBe('<p tabindex="0" class="" data-at="-1.5"></p>');
  });

  test('stand in the order written, those spread into them too, the last value winning', () => {
    const looks: Takes<'d'> = { d: 'M0,0', class: 'b' };
    expect((<path class="a" {...looks} stroke-width={2} />).text).toBe(
      '<path class="b" d="M0,0" stroke-width="2"></path>',
    );
  });
});

describe('content', () => {
  test('null, undefined and false leave nothing, 0 and empty text stand for themselves', () => {
    const absent = false as const;
    expect(
      (
        <p>
          {null}
          {undefined}
          {absent}
          {0}
          {''}
          {-1.5}
        </p>
      ).text,
    ).toBe('<p>0-1.5</p>');
  });

  test('arrays nest, in order, and markup in them stays markup', () => {
    const lines = ['<1>', '2'].map((line) => <li>{line}</li>);
    expect((<ul>{[lines, [[<li>3</li>]], []]}</ul>).text).toBe('<ul><li>&lt;1&gt;</li><li>2</li><li>3</li></ul>');
  });

  test('only markup is left as it is', () => {
    expect((<style>{new Markup('a>b{}')}</style>).text).toBe('<style>a>b{}</style>');
    const lookalike = { text: '<b>' } as unknown as Content;
    expect(() => <p>{lookalike}</p>).toThrow(TypeError);
  });
});

describe('elements', () => {
  // HTML Living Standard, 13.1.2: void elements
  const voids = 'area, base, br, col, embed, hr, img, input, link, meta, source, track, wbr'.split(', ');

  test.each(voids)('%s has no end tag, and loses what cannot stand in it', (name) => {
    const { text } = element(name, { class: 'a' }, 'b');
    expect(text).toBe(`<${name} class="a">`);
  });

  test('any other is closed, empty or not', () => {
    expect((<output />).text).toBe('<output></output>');
    expect((<circle r={1} />).text).toBe('<circle r="1"></circle>');
  });

  test('a fragment is its content, nothing around it', () => {
    expect(
      (
        <>
          a<p />
          {'<'}
        </>
      ).text,
    ).toBe('a<p></p>&lt;');
  });

  test('a component gets its attributes and its content, and its text is escaped as any', () => {
    const Twice = ({ of, children }: { readonly of: string; readonly children?: Content }) => [of, children, children];
    expect(
      (
        <Twice of="<">
          <p>&amp;</p>
        </Twice>
      ).text,
    ).toBe('&lt;<p>&amp;</p><p>&amp;</p>');
  });

  test('unknown elements and attributes do not compile', () => {
    // @ts-expect-error: no such element
    expect((<template />).text).toBe('<template></template>');
    // @ts-expect-error: no such attribute
    expect((<p onclick="a()" />).text).toBe('<p onclick="a()"></p>');
    // @ts-expect-error: a path holds nothing
    expect((<path>{'<'}</path>).text).toBe('<path>&lt;</path>');
  });
});

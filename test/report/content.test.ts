import { type Assessment, assess, combine, recordingFrom, routeBuilder, rowOf } from 'datumline';
import { errorDistribution, reportHtml, stripChart } from 'datumline/report';
import fc from 'fast-check';
import { JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { assessmentShapes } from '../../src/assess/assessmentShapes';
import type { Shape } from '../../src/model';
import { placeBeside } from '../support/simulateRun';
import { inventedAssessment, inventedStreet, recordedBeside } from './invented';
import { inventedRuns } from './inventedTest';

const assessments = inventedRuns(3);
const [single] = assessments;
const summary = combine(assessments);
const page = (html: string) => new JSDOM(html).window.document;
const several = page(reportHtml(assessments));
const alone = page(reportHtml(single));
const labels = ['A', 'B', 'C'];
const stretches = ['street', 'oval, lap 1', 'oval, lap 2', null];

const text = (node: Element | null | undefined) => (node?.textContent ?? '').replace(/\s+/g, ' ').trim();
/** Every number in a text; a true minus sign is one. */
const numbers = (written: string) =>
  [...written.replace(/(?<=\d)[\u202F](?=\d)/g, '').matchAll(/(?<![\d.])[\u2212+]?\d+(?:\.\d+)?/g)].map(([one]) =>
    Number(one.replace('\u2212', '-')),
  );

/** The name of the stretch that a card is about. */
const nameOf = (card: Element) => card.querySelector('h3')!.firstChild!.textContent!.trim();

/** A table by its caption: the cells of each row, by the first words of its heading. */
function table(
  document: Document,
  caption: string | RegExp,
): { head: string[]; rows: { heading: string; cells: Element[] }[] } {
  const found = [...document.querySelectorAll('table')].find((one) => {
    const name = text(one.querySelector('caption'));
    return typeof caption === 'string' ? name === caption : caption.test(name);
  });
  if (!found) throw new Error(`no table ${caption}`);
  return {
    head: [...found.querySelectorAll('thead th')].map(text),
    rows: [...found.querySelectorAll('tbody tr')].map((row) => ({
      heading: text(row.querySelector('th')),
      cells: [...row.querySelectorAll('td')],
    })),
  };
}

/** The figure as printed is the figure as found, to the last printed digit. */
function expectShown(shown: number | undefined, found: number | null | undefined, digit = 0.1) {
  expect(shown).toBeDefined();
  expect(found).not.toBeNull();
  expect(Math.abs(shown! - found!)).toBeLessThanOrEqual(digit * 0.5 + 1e-9);
}
const digitOf = (value: number | null | undefined) => (Math.abs(value ?? 0) < 99.95 ? 0.1 : 1);
const wholeRow = (assessment: Assessment, recording: string, section: string | null) =>
  rowOf(assessment, { recording, section });

describe('what was found', () => {
  const items = (document: Document, heading: string) => {
    const lead = [...document.querySelectorAll('p')].find((p) => text(p) === heading);
    return [...(lead?.nextElementSibling?.querySelectorAll('li') ?? [])].map(text);
  };

  test('what a receiver did not cover is told with what is sure of the rest', () => {
    // no fix from 399 to 462 m of a section that ends at 600 m
    expect(items(page(reportHtml(inventedAssessment())), 'Not covered:')).toEqual([
      'A 21 % of east',
      'B 21 % of east',
      'C 21 % of east',
    ]);
    // whoever covered four fifths of each stretch is not named
    const little = single.rows.filter(({ section, coverage }) => section !== null && coverage < 0.8);
    expect(items(alone, 'Not covered:')).toEqual(
      little.map(
        ({ recording, section, coverage }) => `${recording} ${Math.round(100 - 100 * coverage)} % of ${section}`,
      ),
    );
  });

  test('a share under a half per cent is not told as one', () => {
    // 1 m of 600 beyond 5 m
    const route = inventedStreet();
    const assessment = assess(route, [recordedBeside((s) => (s === 150 ? 5.9 : 0.5), 'A')]);
    const { insideCorridor } = rowOf(assessment, { recording: 'A', section: null });
    expect(insideCorridor).toBeGreaterThan(0.995);
    expect(insideCorridor).toBeLessThan(1);
    expect(items(page(reportHtml(assessment)), 'Outside the corridor:')).toEqual([
      expect.stringMatching(/^A on <1 % of what it covered \(0–\d+ %\), all in west \(<1 %\)$/),
    ]);
  });

  test('what is wrong with a recording is said once, with its run and name', () => {
    const message = (i: number) => `It passes places 2.${i} s later than the others of its run.`;
    const runs = assessments.map((assessment, i) => {
      const { name } = assessment.recordings[0];
      const late = {
        reason: 'clock',
        recording: name,
        section: null,
        from: null,
        to: null,
        message: message(i),
      } as const;
      return { ...assessment, warnings: [...assessment.warnings, late] };
    });
    const told = [...page(reportHtml(runs)).querySelectorAll('.care li')]
      .map(text)
      .filter((line) => line.includes('passes places'));
    expect(told).toEqual(assessments.map(({ recordings: [{ run, name }] }, i) => `${run}, ${name}: ${message(i)}`));
  });
});

describe('how far off', () => {
  test('one run: each mean, interval, side and tie is the assessment’s', () => {
    const { head, rows } = table(alone, 'Mean distance from the line by stretch and receiver');
    expect(head).toEqual(['Stretch', ...labels]);
    rows.forEach(({ cells }, i) => {
      labels.forEach((name, k) => {
        const row = wholeRow(single, name, stretches[i]);
        const [mean, ...interval] = numbers(text(cells[k].querySelector('.figure'))).slice(0, 3);
        expectShown(mean, row.meanAbsolute);
        for (const [j, end] of (row.interval95 ?? []).entries()) expectShown(interval[j], end);
        const [under, verdict] = [...cells[k].querySelectorAll('.under')].map(text);
        const [bias, ...ends] = numbers(under);
        expectShown(bias, Math.abs(row.bias!));
        if (Math.abs(row.bias!) >= 0.05) expect(under).toContain(row.bias! < 0 ? 'left' : 'right');
        const sizes = (row.biasInterval95 ?? []).map(Math.abs);
        const across = row.biasInterval95 !== null && row.biasInterval95[0] < 0 && row.biasInterval95[1] > 0;
        expect(ends).toHaveLength(sizes.length);
        for (const [j, end] of (across ? sizes : sizes.sort((a, b) => a - b)).entries()) expectShown(ends[j], end);
        if (across) expect(under).toMatch(/left to .*right\)$/);
        expect(verdict).toMatch(new RegExp(`^${[row.lineVerdict, row.strayedTo].filter(Boolean).join(' ')}(, |$)`));
        const order = single.order.find(({ section }) => section === stretches[i])!;
        expect(text(cells[k].querySelector('sup'))).toBe(order.entries.find((one) => one.recording === name)!.ties);
      });
    });
  });

  test('several runs: the figures are those over the runs', () => {
    const { rows } = table(several, 'Mean distance from the line by stretch and receiver');
    rows.forEach(({ cells }, i) => {
      labels.forEach((receiver, k) => {
        const row = summary.rows.find((one) => one.receiver === receiver && one.section === stretches[i])!;
        const [mean, low, high] = numbers(text(cells[k].querySelector('.figure')));
        expectShown(mean, row.meanAbsolute);
        for (const [j, end] of row.interval95!.entries()) expectShown([low, high][j], end);
      });
    });
  });
});

describe('findings', () => {
  const findings = (document: Document) => {
    const lists = ['.findings', '.open'].map((list) =>
      [...document.querySelectorAll(`#findings ${list} li`)].map(text),
    );
    return { sure: lists[0], open: lists[1], all: text(document.querySelector('#findings')) };
  };
  /** The stretches that a finding is about, the whole route as null. */
  const stretchesIn = (finding: string) =>
    stretches.filter((name) => finding.includes(name === null ? 'over the whole route' : `“${name}”`));
  const about = (found: readonly string[], begin: string) =>
    found.filter((finding) => finding.startsWith(begin)).flatMap(stretchesIn);
  const inOrder = (found: readonly (string | null)[]) => stretches.filter((name) => found.includes(name));

  /** The summary with verdicts of every kind in it. */
  const mixed = {
    ...summary,
    rows: summary.rows.map((row) => {
      const made = { lineVerdict: 'undecided' as const, strayedTo: null, sureSide: null };
      const strayed = { lineVerdict: 'strayed' as const, strayedTo: 'right' as const, sureSide: 'right' as const };
      if (row.receiver === 'A' && row.section !== null && row.section !== 'street') return { ...row, ...strayed };
      if (row.receiver === 'B') return { ...row, ...made, lineVerdict: 'kept' as const, sureSide: 'left' as const };
      if (row.receiver === 'C' && row.section === 'street')
        return { ...row, ...strayed, strayedTo: null, sureSide: null };
      return { ...row, ...made };
    }),
    pairs: summary.pairs.map((pair) => {
      const made = { verdict: 'undecided' as const, closer: null, moreRuns: 3, limits: [] };
      if (pair.section === 'street') return { ...pair, ...made, verdict: 'equivalent' as const };
      if (pair.first === 'A' && pair.second === 'B' && pair.section === null)
        return { ...pair, ...made, verdict: 'closer' as const, closer: 'B' };
      return { ...pair, ...made };
    }),
  };

  test.each([
    ['as found', summary],
    ['of every kind', mixed],
  ])('%s: each verdict stands under what is sure or under what is not, with its stretches, once', (_, given) => {
    const { sure, open, all } = findings(page(reportHtml(assessments, { summary: given })));
    const rowsOf = (receiver: string, has: (row: (typeof given.rows)[number]) => boolean) =>
      inOrder(given.rows.filter((row) => row.receiver === receiver && has(row)).map(({ section }) => section));
    for (const name of labels) {
      for (const side of ['left', 'right']) {
        const strayed = rowsOf(name, ({ strayedTo }) => strayedTo === side);
        expect(about(sure, `“${name}” strayed to the ${side} `)).toEqual(strayed);
        const sided = rowsOf(name, (row) => row.sureSide === side && row.lineVerdict !== 'strayed');
        expect(inOrder(about(sure, `“${name}” lay ${side} of the line`))).toEqual(sided);
      }
      const average = rowsOf(name, ({ lineVerdict, strayedTo }) => lineVerdict === 'strayed' && strayedTo === null);
      const far = new RegExp(`^“${name}” strayed(,| on| over)`);
      expect(inOrder(sure.filter((one) => far.test(one)).flatMap(stretchesIn))).toEqual(average);
      const both = rowsOf(name, (row) => {
        const { lineVerdict, sureSide, interval95, biasInterval95: bias } = row;
        if (lineVerdict !== 'strayed' || sureSide !== null || !interval95 || !bias) return false;
        return Math.max(-bias[0], bias[1]) < interval95[0] / 2;
      });
      expect(about(sure, `“${name}” strayed, to both sides`)).toEqual(both);
      const kept = sure.filter((one) => one.includes(' kept, on average') && one.includes(`“${name}”`));
      const keptOn = kept.flatMap((one) => (one.includes('on every stretch') ? stretches : stretchesIn(one)));
      expect(keptOn).toEqual(rowsOf(name, ({ lineVerdict }) => lineVerdict === 'kept'));
      const undecided = open.filter((one) => one.startsWith('Whether ') && one.includes(`“${name}”`));
      expect(undecided.flatMap(stretchesIn)).toEqual(rowsOf(name, ({ lineVerdict }) => lineVerdict === 'undecided'));
    }
    const closer = given.pairs.filter((pair) => pair.closer !== null);
    for (const pair of closer) {
      const other = pair.closer === pair.first ? pair.second : pair.first;
      expect(about(sure, `“${pair.closer}” lay closer than “${other}” `)).toContain(pair.section);
    }
    expect(sure.filter((one) => one.includes('lay closer')).flatMap(stretchesIn)).toHaveLength(closer.length);
    for (const section of stretches) {
      const here = given.pairs.filter((pair) => pair.section === section);
      const left = here.filter(({ verdict }) => verdict === 'undecided').length;
      expect(about(open, 'Which lay closer, for every pair').includes(section)).toBe(left === 3);
      expect(about(open, 'Which lay closer, for some pairs').includes(section)).toBe(left > 0 && left < 3);
      for (const { first, second, verdict } of here) {
        const said = sure.some(
          (one) =>
            one.includes('lay equally close, within 1 m') &&
            [first, second].every((name) => one.includes(`“${name}”`)) &&
            stretchesIn(one).includes(section),
        );
        expect(said).toBe(verdict === 'equivalent');
      }
    }
    expect(all).toContain('Sure (3 runs; each at 95 %, by itself):');
    expect(all).toContain('Undecided (3 runs, 3 pairs):');
  });

  test('the strips of a stretch name what is sure beside the receiver', () => {
    const document = page(reportHtml(assessments, { summary: mixed }));
    const panels = [...document.querySelectorAll('.stretch')].map((card) =>
      [...card.querySelectorAll('.pictures > .scroll text.dl-strong')].map(text),
    );
    expect(panels[0]).toEqual(expect.arrayContaining(['A', 'B: surely left', 'C: strayed']));
    expect(panels[1]).toEqual(expect.arrayContaining(['A: strayed right', 'B: surely left', 'C']));
  });

  test('sizes beside a stretch are those of the row', () => {
    const { sure } = findings(page(reportHtml(assessments, { summary: mixed })));
    const [strayed] = sure;
    for (const section of ['oval, lap 1', 'oval, lap 2']) {
      const row = mixed.rows.find((one) => one.receiver === 'A' && one.section === section)!;
      const [bias, ...ends] = numbers(new RegExp(`“${section}” \\(by ([^)]*)\\)`).exec(strayed)![1]);
      expectShown(bias, Math.abs(row.bias!));
      const sizes = row.biasInterval95!.map(Math.abs).sort((a, b) => a - b);
      for (const [j, end] of sizes.entries()) expectShown(ends[j], end);
    }
  });

  test('what all share is not laid at one receiver’s door', () => {
    const rows = summary.rows.map((row) => ({ ...row, sureSide: row.section === 'street' ? ('left' as const) : null }));
    const html = reportHtml(assessments, { summary: { ...summary, rows } });
    const shared = 'what all share can be the place, the wearer or the reference, not one receiver.';
    expect(findings(page(html)).sure).toContain(`All lay to the same side on “street”: ${shared}`);
    const cards = [...page(html).querySelectorAll('.stretch')].filter((card) => text(card).includes(shared));
    expect(cards.map((card) => nameOf(card))).toEqual(['street']);
  });

  test('nor is what one shows surely, and in every run all together', () => {
    const rows = summary.rows.map((row, i) => {
      if (row.section !== 'street') return { ...row, sureSide: null };
      return {
        ...row,
        bias: -2,
        sureSide: i === summary.rows.findIndex(({ section }) => section === 'street') ? ('left' as const) : null,
      };
    });
    const warned = (count: number) =>
      assessments.map((assessment, i) => {
        const here = {
          recording: null,
          section: 'street',
          from: 0,
          to: 1,
          reason: 'common-side' as const,
          message: 'All lie left.',
        };
        const others = assessment.warnings.filter(({ reason }) => reason !== 'common-side');
        return { ...assessment, warnings: i < count ? [...others, here] : others };
      });
    const sure = (count: number, given = rows) => {
      const html = reportHtml(warned(count), { summary: { ...summary, rows: given } });
      return findings(page(html)).sure.some((sentence) => sentence.startsWith('All lay to the same side on “street”'));
    };
    expect(sure(assessments.length)).toBe(true);
    expect(sure(assessments.length - 1)).toBe(false);
    // one of them lies to the other side over the runs
    expect(
      sure(
        assessments.length,
        rows.map((row, i) => (i % 2 === 1 ? { ...row, bias: 2 } : row)),
      ),
    ).toBe(false);
    expect(
      sure(
        assessments.length,
        rows.map((row) => ({ ...row, sureSide: null })),
      ),
    ).toBe(false);
  });

  test('what this test could have found, and what would decide what it saw', () => {
    const document = page(reportHtml(assessments, { summary: mixed }));
    const span = (words: string) =>
      /(\d[\d.]*(?: to [\d.]+)? m(?: at best)?) would be found four times in five/.exec(words)![1];
    for (const section of stretches) {
      const here = mixed.pairs.filter((pair) => pair.section === section);
      const held = here.filter(({ verdict }) => section === null || verdict === 'undecided');
      const words =
        section === null
          ? findings(document).all
          : text(
              [...document.querySelectorAll('.stretch')]
                .find((card) => nameOf(card) === section)!
                .querySelector('.words'),
            );
      if (held.length === 0) {
        expect(words).not.toContain('four times in five');
        continue;
      }
      const found = held.map(({ detectable }) => detectable!);
      const [least, most] = [Math.min(...found), Math.max(...found)];
      expectShown(numbers(span(words))[0], least, digitOf(least));
      if (most <= 10 * least) expectShown(numbers(span(words)).at(-1), most, digitOf(most));
      expect(words).toContain('3 more runs would decide what was seen.');
    }
    const limits = [{ reason: 'unbalanced' as const, message: 'Never swapped.' }];
    const held = { ...mixed, pairs: mixed.pairs.map((pair) => ({ ...pair, limits })) };
    const silent = page(reportHtml(assessments, { summary: held }));
    for (const part of silent.querySelectorAll('#findings, .words')) expect(text(part)).not.toContain('four times');
  });

  test('a run that shows nothing says so and ranks nobody', () => {
    const same = inventedAssessment(['A', 'B', 'C']);
    const pairs = same.pairs.map((pair) => ({ ...pair, verdict: 'undecided' as const, closer: null }));
    const nothing = { lineVerdict: 'undecided' as const, strayedTo: null, sureSide: null };
    const rows = same.rows.map((row) => ({ ...row, ...nothing }));
    const { sure, open, all } = findings(page(reportHtml({ ...same, pairs, rows })));
    expect(sure).toEqual([]);
    expect(all).toContain('Nothing is sure (this run only): nobody was shown to have strayed');
    expect(open).toEqual([
      'Which lay closer, for every pair on “west”, “east” and over the whole route.',
      'Whether “A”, “B” and “C” strayed beyond the corridor on “west”, “east” and over the whole route.',
    ]);
  });

  test('where no recording follows the line that is said first, with what to do, and nothing of results', () => {
    const [a, b] = [1, 2].map((north) => {
      const { lat, ...rest } = recordedBeside(() => 0, `${north}`);
      return { ...rest, lat: lat.map((one) => one + north) };
    });
    const document = page(reportHtml(assess(inventedStreet(), [a, b])));
    const said = text(document.querySelector('#findings'));
    expect(said).toMatch(
      /^What was found ?Nothing could be judged: every recording was left out\. What is wrong with each stands below; where none follows/,
    );
    expect(said).not.toMatch(/Nothing is sure|No recording strayed|worst places|Recordings are drawn/);
    expect(text(document.querySelector('.lead'))).toMatch(
      /in 2 stretches and no recording that could be judged\. Left out: 1: .*another route\?$/,
    );
  });

  test('what is open on every one of many stretches doesn’t name each', () => {
    const builder = routeBuilder().start([2.1, 61.4]);
    for (let i = 0; i < 6; i++) builder.section(`part ${i}`).lineBy({ azimuth: 90, distance: 20 });
    const route = builder.build();
    const names = ['A', 'B'];
    const carried = names.map((name, k) => recordedBeside((s) => 6 * Math.sin(s / 20 + 3 * k), name));
    const found = assess(route, carried);
    const pairs = found.pairs.map((pair) => ({ ...pair, verdict: 'undecided' as const, closer: null }));
    const { open } = findings(page(reportHtml({ ...found, pairs })));
    expect(open[0]).toBe('Which lay closer, for every pair on every stretch and over the whole route.');
  });

  test('that one of many differs is a finding where no two were told apart', () => {
    const four = inventedAssessment(['A', 'B', 'C']);
    const order = four.order.map((one) => ({ ...one, overallPValue: one.section === 'west' ? 0.02 : 0.2 }));
    const pairs = four.pairs.map((pair) => ({ ...pair, verdict: 'undecided' as const, closer: null }));
    const document = page(reportHtml({ ...four, order, pairs }));
    expect(findings(document).sure).toContain('At least one receiver differs on “west”; which one can’t be said.');
    expect(text(document.querySelector('#pairs'))).toContain('west 0.020, east 0.200 and whole route 0.200');
    const told = { ...four, order };
    expect(findings(page(reportHtml(told))).all.includes('At least one')).toBe(
      !told.pairs.some(({ section, closer }) => section === 'west' && closer !== null),
    );
  });

  test('a baseline is marked, and said', () => {
    const baseline = { ...summary, baseline: 'B' };
    const document = page(reportHtml(assessments, { summary: baseline }));
    const { head } = table(document, 'Mean distance from the line by stretch and receiver');
    expect(head).toEqual(['Stretch', 'A', 'Bbaseline', 'C']);
    expect(findings(document).all).toContain('Every other receiver was compared with “B” alone.');
    expect(findings(several).all).not.toContain('alone');
  });

  test.each([
    ['one run', alone, single.pairs],
    ['three', several, summary.pairs],
    ['three, of every kind', page(reportHtml(assessments, { summary: mixed })), mixed.pairs],
  ])(
    '%s: a stretch says once who lay closer, who lay equally close, and how many pairs stay open',
    (_, document, pairs) => {
      for (const card of document.querySelectorAll('.stretch')) {
        const section = nameOf(card);
        const words = text(card.querySelector('.words'));
        const here = pairs.filter((pair) => pair.section === section);
        for (const name of labels) {
          const than = here
            .filter(({ closer }) => closer === name)
            .map(({ first, second }) => (first === name ? second : first));
          const told = new RegExp(`“${name}” lay closer than ([^.]*)\\.`).exec(words)?.[1] ?? '';
          expect([...told.matchAll(/“([^”]*)”/g)].map(([, other]) => other)).toEqual(than);
        }
        const equal = here.filter(({ verdict }) => verdict === 'equivalent');
        expect(words.includes('Equivalent within 1 m: ')).toBe(equal.length > 0);
        const open = here.filter(({ verdict }) => verdict === 'undecided').length;
        const counted = open === here.length ? `${open} pairs` : `${open} of ${here.length} pairs`;
        expect(words.includes('Undecided: ')).toBe(open > 0);
        if (open > 0) expect(words).toContain(`Undecided: ${counted}`);
      }
    },
  );

  test('the share outside the corridor is one less the share inside it, the worst stretch first', () => {
    const lines = [...alone.querySelectorAll('#findings .plain li')].map(text);
    for (const [i, name] of labels.entries()) {
      const outside = (section: string | null) => 100 * (1 - wholeRow(single, name, section).insideCorridor!);
      const metres = (section: string) => outside(section) * wholeRow(single, name, section).covered;
      if (outside(null) === 0) {
        expect(lines[i]).toBe(`${name} never`);
        continue;
      }
      expectShown(numbers(lines[i])[0], outside(null), 1.01);
      const worst = stretches.filter((section) => section !== null).sort((a, b) => metres(b) - metres(a))[0];
      expect(lines[i]).toMatch(new RegExp(`(in|most in|all in) ${worst} \\(`));
    }
  });

  test('warnings of one run name it, those of all stand once', () => {
    const lines = [...several.querySelectorAll('.care li')].map(text);
    expect(new Set(lines).size).toBe(lines.length);
    for (const [i, { warnings }] of assessments.entries()) {
      for (const { message, reason } of warnings) {
        if (reason === 'one-run' || reason === 'unbalanced') continue;
        const all = assessments.every((one) => one.warnings.some((other) => other.message === message));
        const found = lines.filter((line) => line.includes(message));
        expect(found.some((line) => all || new RegExp(`^(run \\d, )*run ${i + 1}[,:]`).test(line))).toBe(true);
      }
    }
  });
});

describe('distribution', () => {
  test('its words give the distances within which 50, 68 and 95 % of the covered metres lie, counted one by one', () => {
    const { from, to, name } = single.route.sections[0];
    const svg = page(errorDistribution(single, { section: name }));
    const words = text(svg.querySelector('desc'));
    for (const recording of single.recordings) {
      const sizes = recording.offsets
        .flatMap((offset, i) => {
          const middle = (single.route.bins[i] + single.route.bins[i + 1]) / 2;
          return offset === null || middle < from || middle > to ? [] : [Math.abs(offset)];
        })
        .sort((a, b) => a - b);
      const sentence = new RegExp(`${recording.name}: half within [^.]*\\.[^.]*\\.[^.]*\\.[^.]*\\.`).exec(words)![0];
      const shown = numbers(sentence).filter((value) => value !== 68 && value !== 95);
      [0.5, 0.68, 0.95].forEach((share, k) => {
        const within = (limit: number) => sizes.filter((size) => size <= limit).length / sizes.length;
        expect(within(shown[k] + 0.051)).toBeGreaterThanOrEqual(share);
        expect(within(shown[k] - 0.051)).toBeLessThanOrEqual(share + 1 / sizes.length);
      });
    }
    expect(words).toContain('The corridor ends at 4.0');
  });

  test('each curve rises from nothing to all and never falls', () => {
    const svg = page(errorDistribution(assessments));
    const curves = [...svg.querySelectorAll('path.dl-line')].map((path) => path.getAttribute('d')!);
    const drawn = curves.filter((d) => d !== 'M0,0H28');
    expect(drawn).toHaveLength(9);
    for (const d of drawn) {
      const points = d
        .slice(1)
        .split('L')
        .map((point) => point.split(',').map(Number));
      points.forEach(([x, y], i) => {
        if (i === 0) return;
        expect(x).toBeGreaterThanOrEqual(points[i - 1][0]);
        expect(y).toBeLessThanOrEqual(points[i - 1][1]);
      });
    }
  });
});

test('corners: one turn that nobody cut is no plural', () => {
  const route = routeBuilder()
    .start([5, 52])
    .lineBy({ azimuth: 90, distance: 300 })
    .lineBy({ azimuth: 0, distance: 300 })
    .build();
  const { lon, lat } = route;
  const told = text(page(reportHtml(assess(route, [recordingFrom({ lon, lat })]))).querySelector('#turns'));
  expect(told).toContain('Nobody was seen to cut or overshoot the one turn.');
});

test('corners: who cut every turn, in every run, is among the findings', () => {
  const legs = routeBuilder({ lateral95: 0.5 }).start([5, 52]);
  for (const azimuth of [90, 0, 90, 0]) legs.lineBy({ azimuth, distance: 200 });
  const route = legs.build();
  // along the legs, and straight on from so many metres before a turn to as many after it
  const walked = (aside: (turn: number) => number) =>
    Array.from({ length: 161 }, (_, i) => {
      const turn = Math.round(i / 40);
      const [from, to] = [200 * turn - aside(turn), 200 * turn + aside(turn)];
      if (5 * i <= from || 5 * i >= to) return placeBeside(route, 5 * i, 0);
      const [a, b] = [placeBeside(route, from, 0), placeBeside(route, to, 0)];
      const part = (5 * i - from) / (to - from);
      return [a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])];
    });
  const taken = (name: string, run: string, aside: (turn: number) => number) => {
    const at = walked((turn) => (turn === 0 || turn === 4 ? 0 : aside(turn)));
    const recording = recordingFrom({ lon: at.map(([lon]) => lon), lat: at.map(([, lat]) => lat) });
    return { recording, receiver: name, run };
  };
  const report = (last: (turn: number) => number) =>
    page(
      reportHtml(
        [1, 2].map((k) =>
          assess(route, [
            taken('cutting', `run ${k}`, k === 1 ? () => 20 : last),
            taken('keeping', `run ${k}`, () => 0),
          ]),
        ),
      ),
    ).querySelector('#findings')!;
  const told = (found: Element) => /At every turn:\s*(.*?of \d+)/.exec(text(found))?.[1];
  expect(told(report(() => 20))).toBe('cutting cut inside, 6 of 6');
  expect(told(report((turn) => (turn === 2 ? 0 : 20)))).toBeUndefined();
});

test('corners: the mean through the turn and what was done are the passages’', () => {
  const { rows } = table(alone, 'Turns of the route and how they were taken');
  const taken = single.corners.filter(({ passages }) =>
    passages.some(({ outcome }) => outcome !== null && outcome !== 'kept'),
  );
  expect(rows).toHaveLength(taken.length);
  expect(rows.length).toBeGreaterThan(0);
  rows.forEach(({ heading, cells }, i) => {
    const corner = taken[i];
    expect(heading).toContain(`${corner.number}: ${corner.turn.toFixed(0)}° ${corner.direction}`);
    for (const [k, name] of labels.entries()) {
      const passage = corner.passages.find(({ recording }) => recording === name)!;
      if (passage.outcome === null) {
        expect(text(cells[k])).toBe('not covered');
        continue;
      }
      expectShown(numbers(text(cells[k]))[0], passage.mean);
      const word = { 'cut inside': 'cut', 'overshot outside': 'wide', kept: '' }[passage.outcome];
      expect(text(cells[k].querySelector('.under'))).toBe(word);
    }
  });
});

test('pairs: a row for each two, a column for each stretch, and every figure is the summary’s', () => {
  const { head, rows } = table(several, 'Every two receivers');
  const columns = [null, ...stretches.slice(0, -1)];
  expect(head).toEqual(['Pair', ...columns.map((name) => name ?? 'Whole route')]);
  expect(rows.map(({ heading }) => heading)).toEqual(['A – B', 'A – C', 'B – C']);
  const reasons = [...several.querySelectorAll('#pairs .reasons li')].map(text);
  rows.forEach(({ heading, cells }) => {
    columns.forEach((section, k) => {
      const [first, second] = heading.split(' – ');
      const pair = summary.pairs.find(
        (one) => one.section === section && [one.first, one.second].sort().join() === [first, second].sort().join(),
      )!;
      const sign = pair.first === first ? 1 : -1;
      expectShown(numbers(text(cells[k].querySelector('.difference')))[0], sign * pair.difference!);
      const interval = numbers(text(cells[k].querySelector('.under')));
      const ends = pair.interval95!.map((end) => sign * end).sort((a, b) => a - b);
      for (const [j, end] of ends.entries()) expectShown(interval[j], end);
      const word = pair.verdict !== 'closer' ? pair.verdict : pair.closer === first ? 'closer' : 'further';
      expect(text(cells[k].querySelector('strong'))).toBe(word === 'undecided' ? '' : word);
      const letters = text(cells[k].querySelector('sup')).split(',').filter(Boolean);
      const held = letters.map((one) => reasons[one.charCodeAt(0) - 97]);
      expect(held).toEqual(pair.limits.map(({ message }) => message));
    });
  });
  expect(reasons.length).toBeGreaterThan(0);
  const turned = text(several.querySelector('#pairs'));
  for (const { first, second, section } of summary.flips) {
    const own = summary.pairs.filter((pair) => pair.first === first && pair.second === second);
    const equal = own.some((pair) => [section, null].includes(pair.section) && pair.verdict === 'equivalent');
    if (equal) continue;
    expect(turned).toMatch(new RegExp(`${first} and ${second} in [^.]*${section}`));
  }
});

test('pairs: the order of two that are equivalent, there or on the whole route, is no news', () => {
  const flips = ['street', 'oval, lap 1'].map((section) => ({ section, first: 'A', second: 'B' }));
  const told = (equal: (section: string | null) => boolean) => {
    const pairs = summary.pairs.map((pair) => ({
      ...pair,
      verdict: equal(pair.section) ? ('equivalent' as const) : ('undecided' as const),
    }));
    const part = page(reportHtml(assessments, { summary: { ...summary, flips, pairs } })).querySelector('#pairs');
    return /The other way round[^:]*: ([^.]*)/.exec(text(part))?.[1];
  };
  expect(told(() => false)).toBe('A and B in street and oval, lap 1');
  expect(told((section) => section === 'oval, lap 2')).toBe('A and B in street and oval, lap 1');
  expect(told((section) => section === 'street')).toBe('A and B in oval, lap 1');
  expect(told((section) => section === null)).toBeUndefined();
});

test('lengths: the total, its parts, and what the total hides', () => {
  const { rows } = table(alone, 'Recorded length and what it is made of');
  labels.forEach((name, i) => {
    const row = wholeRow(single, name, null);
    const total = single.totals.find(({ recording }) => recording === name)!;
    const shown = rows[i].cells.map((cell) => numbers(text(cell))[0]);
    expectShown(shown[0], row.recordedLength, 1);
    expectShown(shown[1], row.lengthError, digitOf(row.lengthError));
    expectShown(numbers(text(rows[i].cells[1]))[1], (100 * row.lengthError!) / row.referenceLength, 0.1);
    expectShown(shown[2], row.turnTerm, digitOf(row.turnTerm));
    expectShown(shown[3], row.wiggleTerm, digitOf(row.wiggleTerm));
    expectShown(shown[4], row.remainder, digitOf(row.remainder));
    expectShown(shown[5], total.absoluteErrors, digitOf(total.absoluteErrors));
    expectShown(shown[6], 100 * total.cancellation!, 2);
    // the parts make the whole, as printed
    expect(Math.abs(shown[2] + shown[3] + shown[4] - shown[1])).toBeLessThan(1.6);
  });
});

test('distances shown at the marks and at the finish', () => {
  const { rows } = table(several, 'Distance shown at the marks, against the reference');
  expect(rows.map(({ heading }) => heading.split(' ')[0])).toEqual(
    ['gate350', 'Finish790'].map((word) => expect.stringContaining(word.slice(0, 4))),
  );
  rows.forEach(({ cells }, i) => {
    const mark = [single.route.marks[0].name, null][i];
    for (const [k, name] of labels.entries()) {
      const found = assessments.map((one) => one.distances.find((d) => d.recording === name && d.mark === mark)!);
      const shown = text(cells[k].firstChild as Element).split(' · ');
      if (found.every(({ error }) => error === null)) {
        expect(text(cells[k])).toBe('not covered');
        continue;
      }
      found.forEach(({ error }, run) => {
        if (error === null) expect(shown[run]).toBe('–');
        else expectShown(numbers(shown[run])[0], error, digitOf(error));
      });
    }
  });
});

test('laps, runs, places worn, sides and the decoy say what was found', () => {
  const laps = table(several, 'How much the offset differs from lap to lap at the same place').rows;
  const spread = table(several, 'How much the mean distance differs from run to run').rows;
  const sides = table(several, 'Share of the covered metres on the side travelled').rows;
  const drawn = table(several, 'Attraction by the other line').rows;
  expect(laps.map(({ heading }) => heading)).toEqual(['oval2 laps']);
  labels.forEach((name, k) => {
    const found = assessments.map((one) => one.lapRepeatability.find(({ recording }) => recording === name)!.sd);
    const lapSpread = numbers(text(laps[0].cells[k]));
    for (const [run, sd] of found.entries()) expectShown(lapSpread[run], sd);
    stretches.forEach((section, i) => {
      const row = summary.rows.find((one) => one.receiver === name && one.section === section)!;
      const [between, within] = numbers(text(spread[i].cells[k]));
      expectShown(between, row.betweenRunSd);
      if (row.withinRunSd !== null) expectShown(within, row.withinRunSd);
      const rows = assessments.map((one) => wholeRow(one, name, section));
      const shares = numbers(text(sides[i].cells[k].firstChild as Element));
      for (const [run, { correctSide }] of rows.entries()) expectShown(shares[run], 100 * correctSide!, 2);
      const verdicts = rows.flatMap(({ mapAttraction }) => mapAttraction?.verdict ?? []);
      const said = text(drawn[i].cells[k].querySelector('strong'));
      for (const verdict of new Set(verdicts)) {
        const n = verdicts.filter((one) => one === verdict).length;
        expect(said).toContain(`${verdict} ${n} of ${verdicts.length}`);
      }
    });
  });
  const worn = [...several.querySelectorAll('#worn li')].map(text);
  expect(worn).toHaveLength(summary.placementEffects.length);
  expect(worn.length).toBe(3);
  summary.placementEffects.forEach(({ first, second, difference, interval95 }, i) => {
    const told = interval95 !== null && (interval95[0] > 0 || interval95[1] < 0);
    expect(worn[i].includes('too few runs for an interval')).toBe(interval95 === null);
    expect(worn[i].startsWith('No difference shown')).toBe(!told);
    expect(worn[i]).toContain(`at “${first}” than at “${second}”`);
    expectShown(numbers(worn[i])[0], Math.abs(difference));
  });
});

test('runs bear the dates that were stated, in the words of who stated them', () => {
  const dates = { 'run 1': '2031-05-01', 'run 3': '3 May <late>', other: '1999' };
  const header = text(page(reportHtml(assessments, { dates })).querySelector('header'));
  expect(header).toContain('Recorded: run 1, 2031-05-01; run 3, 3 May <late>.');
  expect(header).not.toContain('1999');
  expect(text(several.querySelector('header'))).not.toContain('Recorded');
  for (const wrong of [{ 'run 1': 5 }, { 'run 1': '' }]) {
    expect(() => reportHtml(assessments, { dates: wrong as never })).toThrow('options.dates["run 1"] must be');
  }
  expect(() => reportHtml(assessments, { dates: ['2031'] as never })).toThrow('options.dates must be');
});

test('no words name a colour of the line: each theme draws it in its own', () => {
  for (const document of [several, alone]) {
    const words = [
      text(document.body),
      ...[...document.querySelectorAll('svg')].map((svg) => svg.getAttribute('aria-label') ?? ''),
    ];
    expect(words.join(' ')).not.toMatch(/\b(black|white|grey|gray|dark|pale)\b/i);
  }
});

test('what the line was drawn from stands there with its terms', () => {
  const stated = { source: 'an invented survey', date: '2030-05', licence: 'MIT', frame: 'ETRS89', epoch: 2030.4 };
  const provenance = [
    { from: 0, to: 350, ...stated, lateral95: 0.6 },
    { from: 350, to: 790, source: 'paced out' },
  ];
  const html = reportHtml({ ...single, route: { ...single.route, provenance } });
  expect([...page(html).querySelectorAll('#doubt li')].map(text)).toEqual(
    expect.arrayContaining([
      '0–350 m: an invented survey; of 2030-05; licence: MIT; frame: ETRS89, epoch 2030.4; known to ±0.6 m (95 %).',
      '350–790 m: paced out.',
    ]),
  );
  const silent = reportHtml({ ...single, route: { ...single.route, provenance: [] } });
  expect(text(page(silent).querySelector('#doubt'))).not.toContain('drawn from');
});

test('doubt in the reference: the most that moving it changes, and where all recordings lie', () => {
  const words = text(several.querySelector('#doubt'));
  for (const { referenceDoubt, commonShift } of assessments) {
    const { shift, trials, orderChanges, verdictChanges } = referenceDoubt!;
    expect(words).toContain(`its stated uncertainty of ${shift.toFixed(1)} m in each of ${trials.length} directions`);
    const pairs = (n: number) => (n === 1 ? 'one pair' : `${n} pairs`);
    expect(words).toContain(
      orderChanges === 0
        ? 'leaves the order on the whole route as it is'
        : `at most ${pairs(orderChanges)} change places`,
    );
    expect(words).toContain(
      verdictChanges === 0 ? 'reverses no “closer” verdict' : `verdict of at most ${pairs(verdictChanges)}`,
    );
    if (commonShift)
      expect(words).toContain(`${commonShift.distance.toFixed(1)} m towards ${commonShift.azimuth.toFixed(0)}°`);
  }
});

test('runs of one receiver are told apart in a strip: by their width, and by name on their own line', () => {
  const svg = page(stripChart(assessments, { width: 900 }));
  const widths = [...svg.querySelectorAll('path.dl-line.dl-r0')]
    .filter((path) => path.getAttribute('d') !== 'M0,0H28')
    .map((path) => Number(path.getAttribute('stroke-width')));
  expect(new Set(widths).size).toBe(3);
  const names = [...svg.querySelectorAll('text.dl-run')].map(text);
  for (const run of ['run 1', 'run 2', 'run 3']) {
    expect(names.filter((name) => name === run).length).toBeGreaterThanOrEqual(3);
  }
  // one run needs no names
  expect(page(stripChart(single)).querySelectorAll('text.dl-run')).toHaveLength(0);
});

test('a close-up has the reference in it where its straight edges begin and end far away', () => {
  const close = [...page(reportHtml(inventedAssessment())).querySelectorAll('.card svg.dl-picture')][0];
  expect(close.querySelector('path.dl-reference')!.getAttribute('d')).not.toBe('');
});

test('pictures of the report say in words what they show', () => {
  for (const svg of several.querySelectorAll('svg[role=img]')) {
    expect(svg.getAttribute('aria-label')!.length).toBeGreaterThan(40);
  }
  for (const svg of several.querySelectorAll('svg:not([role=img]):not(svg svg)')) {
    expect(svg.getAttribute('aria-hidden')).toBe('true');
  }
});

test('whatever is missing, nothing reads NaN, undefined, null or Infinity', () => {
  const missing = (assessment: Assessment, seed: number): Assessment => {
    let state = seed;
    // every figure that may be null is so once in a while
    const holes = (value: unknown, shape: Shape): unknown => {
      const shapes = alternatives(shape);
      if (Array.isArray(value)) {
        const items = shapes.flatMap((one) => (typeof one === 'object' && 'items' in one ? one.items : []));
        return value.map((one) => holes(one, { any: items }));
      }
      if (typeof value !== 'object' || value === null) return value;
      return Object.fromEntries(
        Object.entries(value).map(([key, one]) => {
          const member = shapes.flatMap((of) => (typeof of === 'object' && 'must' in of ? (of.must[key] ?? []) : []));
          state = (state * 1103515245 + 12345) & 0x7fffffff;
          const may = nullable.has(key) && member.flatMap(alternatives).includes('null');
          return [key, may && state % 4 === 0 ? null : holes(one, { any: member })];
        }),
      );
    };
    return {
      ...assessment,
      ...(holes(
        {
          rows: assessment.rows,
          pairs: assessment.pairs,
          corners: assessment.corners,
          distances: assessment.distances,
          totals: assessment.totals,
          recordings: assessment.recordings,
          referenceDoubt: assessment.referenceDoubt,
          commonShift: assessment.commonShift,
        },
        '#',
      ) as Partial<Assessment>),
    };
  };
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: 1, max: 3 }), (seed, runs) => {
      const html = reportHtml(assessments.slice(0, runs).map((one, i) => missing(one, seed + i)));
      const read = html.replace(/<(script|style)[^>]*>.*?<\/\1>/gs, '');
      expect(read.length).toBeGreaterThan(50_000);
      expect(/\b(NaN|undefined|null|Infinity)\b|\[object/.exec(read)?.[0]).toBeUndefined();
    }),
    { seed: 5, numRuns: 8 },
  );
});

test('one of anything is written as one', () => {
  const worst = inventedAssessment().excursions[0];
  // 9 places 30 m apart by 9 excursions: one more than the pictures number
  const many = Array.from({ length: 9 }, (_, i) => ({ ...worst, from: 30 * i, to: 30 * i + 10, peakAt: 30 * i + 5 }));
  const pages = [
    several,
    alone,
    page(reportHtml({ ...inventedAssessment(), excursions: many })),
    page(reportHtml(inventedRuns(1))),
    page(reportHtml(inventedAssessment(['A']))),
    page(reportHtml(assessments.slice(0, 2))),
  ];
  for (const { body } of pages) {
    for (const node of body.querySelectorAll('script, style')) node.remove();
    const wrong =
      /(?<![\d.\u202F–-])1 (more |further |lesser )?(runs|receivers|recordings|places|turns|laps|pairs|directions|fixes|stretches)\b/;
    expect(wrong.exec(text(body))?.[0]).toBeUndefined();
  }
  expect(text(pages[2].body)).toContain('1 lesser place is in the files, not here.');
  expect(text(pages[3].body)).toContain('3 recordings in one run: what follows holds for this run only.');
  expect(text(pages[4].body)).toContain('and 1 recording in one run');
});

/** The shapes one of which a value must have. */
function alternatives(shape: Shape): readonly Shape[] {
  if (typeof shape === 'string' && shape.startsWith('#')) return alternatives(assessmentShapes[shape.slice(1)]);
  return typeof shape === 'object' && 'any' in shape ? shape.any.flatMap(alternatives) : [shape];
}

/** Fields of an assessment that are null where nothing is known; some of the same name may not be. */
const nullable = new Set([
  'meanAbsolute',
  'interval95',
  'interval90',
  'biasInterval95',
  'insideCorridorInterval95',
  'correctSideInterval95',
  'strayedTo',
  'sureSide',
  'halfWidth',
  'detectable',
  'foretold',
  'median',
  'p95',
  'max',
  'bias',
  'biasSide',
  'biasInWords',
  'sd',
  'insideCorridor',
  'correctSide',
  'undecidedSide',
  'recordedLength',
  'lengthError',
  'turnTerm',
  'wiggleTerm',
  'remainder',
  'effectiveSamples',
  'fixInterval',
  'mapAttraction',
  'index',
  'difference',
  'pValue',
  'adjustedPValue',
  'correlation',
  'mean',
  'outcome',
  'recorded',
  'error',
  'seconds',
  'late',
  'cancellation',
  'termCancellation',
  'settled',
  'laps',
  'confidence',
  'receiver',
  'placement',
  'run',
  'referenceDoubt',
  'commonShift',
]);

import { describe, expect, test } from 'vitest';
import type { ToldPair, ToldRow, ToldStretch } from '../../src/assess';
import { equalGroups, stretchSentence } from '../../src/assess';

const row = (name: string, has: Partial<ToldRow> = {}): ToldRow => ({
  name,
  meanAbsolute: 2,
  interval95: [1, 3],
  bias: 0.2,
  biasInterval95: [-1, 1.4],
  lineVerdict: 'kept',
  strayedTo: null,
  lineLimit: 5,
  sureSide: null,
  ...has,
});
const strayed = (name: string, side: 'left' | 'right' | null, bias: number, interval: [number, number]) =>
  row(name, {
    bias,
    biasInterval95: interval,
    meanAbsolute: Math.abs(bias),
    interval95: [Math.min(...interval.map(Math.abs)), Math.max(...interval.map(Math.abs))],
    lineVerdict: 'strayed',
    strayedTo: side,
    sureSide: side,
  });
const pair = (first: string, second: string, has: Partial<ToldPair> = {}): ToldPair => ({
  first,
  second,
  difference: -1.5,
  interval95: [-4, 1],
  verdict: 'undecided',
  closer: null,
  detectable: 2.6,
  moreRuns: 5,
  limits: [{ reason: 'includes-zero', message: '' }],
  ...has,
});
const closer = (first: string, second: string, difference: number, interval95: [number, number]) =>
  pair(first, second, {
    difference,
    interval95,
    verdict: 'closer',
    closer: difference < 0 ? first : second,
    moreRuns: 0,
    limits: [],
  });
const equal = (first: string, second: string) =>
  pair(first, second, { verdict: 'equivalent', moreRuns: 0, limits: [] });
const held = (first: string, second: string, reason: ToldPair['limits'][number]['reason']) =>
  pair(first, second, { limits: [{ reason, message: '' }], moreRuns: null });
const say = (told: Partial<ToldStretch>) =>
  stretchSentence({
    section: 'quay',
    rows: [row('A'), row('B'), row('C')],
    pairs: [],
    overallPValue: null,
    equivalence: 1,
    ones: 'receivers',
    holdsFor: '3 runs',
    ...told,
  });

test('in this order: strayed, to a side within the corridor, kept; closer; equal; undecided, and what would decide it', () => {
  expect(
    say({
      rows: [
        row('K'),
        strayed('S', 'right', 8.1, [6.5, 9.7]),
        row('W', { sureSide: 'left', bias: -3.1, biasInterval95: [-4.2, -2] }),
        row('U', { lineVerdict: 'undecided' }),
      ],
      pairs: [
        closer('K', 'S', -5, [-7.1, -3]),
        closer('S', 'W', 4, [1.96, 6]),
        equal('K', 'W'),
        pair('K', 'U'),
        pair('S', 'U', { detectable: 6.5, moreRuns: 6 }),
        pair('W', 'U'),
      ],
    }),
  ).toBe(
    'On “quay”: “S” strayed to the right by 8.1 m (6.5 to 9.7); ' +
      '“W” kept within 5.0 m on average, surely left of the line by 3.1 m (2.0 to 4.2); “K” kept within 5.0 m on average; ' +
      '“K” lay closer than “S” by 5.0 m (3.0 to 7.1); “W” lay closer than “S” by 4.0 m (2.0 to 6.0); ' +
      '“K” and “W” lay equally close, within 1 m. ' +
      'Undecided (3 runs, 3 of 6 pairs): which lay closer, “K” or “U”, “S” or “U”, “W” or “U” ' +
      '(2.6 to 6.5 m would be found four times in five; 5 to 6 more runs would decide what was seen); ' +
      'whether “U” strayed beyond 5.0 m.',
  );
});

describe('the line', () => {
  test('the whole route is called so', () => {
    expect(say({ section: null, pairs: [equal('A', 'B')] })).toMatch(/^Over the whole route: “A”, “B” and “C” kept /);
  });

  test('nothing covered, nothing else said', () => {
    expect(say({ rows: [] })).toBe('On “quay”: nothing was covered.');
  });

  test.each([
    [
      'to both sides where the mean offset is surely less than half the distance',
      [-2.5, 2.9],
      null,
      ' to both sides',
      '',
    ],
    ['to no side where that is not sure', [-1.4, 13.4], null, '', ''],
    ['to no side where the offset has no interval', null, null, '', ''],
    [
      'to a side where it surely lies there, though not surely beyond the limit',
      [1.8, 11.2],
      'right',
      '',
      ', surely right of the line',
    ],
  ] as const)('one that strayed on average, %s', (_, biasInterval95, sureSide, where, side) => {
    const stray = { ...strayed('A', null, 7, [6, 8]), biasInterval95, sureSide };
    expect(say({ rows: [stray, row('B')], pairs: [equal('A', 'B')] })).toContain(
      `“A” strayed${where}, 7.0 m (6.0 to 8.0) off on average${side}; “B” kept`,
    );
  });

  test('a limit of its own is said of each', () => {
    const rows = [
      row('A'),
      row('B', { lineLimit: 0.5 }),
      row('C'),
      row('D', { lineVerdict: 'undecided', lineLimit: 0.5 }),
    ];
    const sentence = say({ rows: [...rows, row('E', { lineVerdict: 'undecided' })] });
    expect(sentence).toContain('“A” and “C” kept within 5.0 m on average; “B” kept within 0.5 m on average');
    expect(sentence).toContain('whether “D” and “E” strayed beyond 0.5 to 5.0 m.');
  });

  test('a side is sure where straying is not', () => {
    const lay = row('A', { lineVerdict: 'undecided', sureSide: 'right', bias: 5, biasInterval95: [2, 8] });
    expect(say({ rows: [lay, row('B')], pairs: [equal('A', 'B')] })).toBe(
      'On “quay”: “A” lay surely right of the line by 5.0 m (2.0 to 8.0); “B” kept within 5.0 m on average; ' +
        '“A” and “B” lay equally close, within 1 m. Undecided (3 runs): whether “A” strayed beyond 5.0 m.',
    );
  });
});

describe('the pairs', () => {
  test('a single recording has none', () => {
    expect(say({ rows: [row('A')], ones: 'recordings', holdsFor: 'this run only' })).toBe(
      'On “quay”: “A” kept within 5.0 m on average; there is no other to compare it with (this run only).',
    );
    expect(say({ rows: [row('A', { lineVerdict: 'undecided' })] })).toBe(
      'On “quay”: there is no other to compare it with. Undecided (3 runs): whether “A” strayed beyond 5.0 m.',
    );
  });

  test('where another has nothing of the stretch it isn’t said that there is no other', () => {
    expect(say({ rows: [row('A')], pairs: [held('A', 'B', 'nothing-in-common')] })).toBe(
      'On “quay”: “A” kept within 5.0 m on average. Undecided (3 runs, 1 pair): which lay closer (nothing of it in common).',
    );
  });

  test('two recordings of a run without the baseline are not compared', () => {
    expect(say({ rows: [row('A'), row('B')] })).toContain('nothing was compared (3 runs).');
  });

  test('all equal: each name once', () => {
    expect(say({ pairs: [equal('A', 'B'), equal('A', 'C'), equal('B', 'C')], equivalence: 0.5 })).toBe(
      'On “quay”: “A”, “B” and “C” kept within 5.0 m on average; “A”, “B” and “C” lay equally close, within 0.5 m (3 runs).',
    );
  });

  test('nothing sure: it begins with that', () => {
    const rows = [row('A', { lineVerdict: 'undecided' }), row('B', { lineVerdict: 'undecided' })];
    expect(say({ rows, pairs: [pair('A', 'B')] })).toBe(
      'On “quay”: undecided (3 runs, 1 pair): which lay closer (2.6 m would be found four times in five; ' +
        '5 more runs would decide what was seen); whether “A” and “B” strayed beyond 5.0 m.',
    );
    expect(say({ rows, pairs: [pair('A', 'B', { moreRuns: 1 })] })).toContain('1 more run would decide');
  });

  test('one closer than several is said once', () => {
    expect(say({ pairs: [closer('A', 'B', -2, [-3, -1]), closer('A', 'C', -4, [-6, -2]), equal('B', 'C')] })).toContain(
      '; “A” lay closer than “B” by 2.0 m (1.0 to 3.0) and than “C” by 4.0 m (2.0 to 6.0); ',
    );
  });

  test('what only chance leaves open is answered with figures, the rest with its reason', () => {
    const reasons = [
      ['nothing-in-common', 'nothing of it in common'],
      ['little-in-common', 'less than half of it in common'],
      ['too-short', 'too short for an interval'],
      ['one-run', 'one run ranks nothing'],
      ['sparse-fixes', 'no more apart than sparser fixes alone explain'],
      ['below-floor', 'less apart than the reference, the lever arm and sparse fixes leave open'],
      ['off-the-route', 'one was off the route for more of it'],
      ['unbalanced', 'never swapped between the places they were worn at'],
    ] as const;
    for (const [reason, words] of reasons) {
      expect(say({ rows: [row('A'), row('B')], pairs: [held('A', 'B', reason)] })).toContain(
        `: which lay closer (${words}).`,
      );
    }
    expect(say({ pairs: [held('A', 'B', 'unbalanced'), pair('A', 'C'), pair('B', 'C')] })).toContain(
      'which lay closer (never swapped between the places they were worn at; ' +
        '2.6 m would be found four times in five; 5 more runs would decide what was seen).',
    );
    const wide = pair('A', 'C', { detectable: 27 });
    expect(say({ pairs: [pair('A', 'B'), wide, pair('B', 'C')] })).toContain(
      '(at best 2.6 m would be found four times',
    );
    const gross = (metres: number) =>
      say({ rows: [row('A'), row('B')], pairs: [pair('A', 'B', { detectable: metres })] });
    expect(gross(10)).toContain('(10.0 m would be found four times in five;');
    expect(gross(10.1)).toContain('(too short to find any but a gross difference;');
    const unknown = pair('A', 'B', { detectable: null, moreRuns: null });
    expect(say({ rows: [row('A'), row('B')], pairs: [unknown] })).toContain(': which lay closer.');
  });

  test('that one of many differs is said where it can’t be said which', () => {
    const names = ['A', 'B', 'C', 'D'];
    const pairs = names.flatMap((a, i) => names.slice(i + 1).map((b) => pair(a, b)));
    const rows = names.map((name) => row(name));
    const words = '; at least one of the receivers differs, though it can’t be said which. Undecided (3 runs, 6 pairs)';
    expect(say({ rows, pairs, overallPValue: 0.05 })).toContain(words);
    expect(say({ rows, pairs, overallPValue: 0.051 })).not.toContain('at least one');
    const found = [closer('A', 'B', -2, [-3, -1]), ...pairs.slice(1)];
    expect(say({ rows, pairs: found, overallPValue: 0.01 })).not.toContain('at least one');
    // more than can be read are counted
    expect(say({ rows, pairs: found })).toContain('Undecided (3 runs, 5 of 6 pairs): which lay closer (2.6 m');
  });
});

test('groups of equals: every equal pair stands in one, and no other', () => {
  const names = ['A', 'B', 'C', 'D', 'E'];
  const all = names.flatMap((first, i) => names.slice(i + 1).map((second) => ({ first, second })));
  for (let mask = 0; mask < 1 << all.length; mask++) {
    const pairs = all.filter((_, k) => mask & (1 << k));
    const groups = equalGroups(names, pairs);
    const together = all.filter(({ first, second }) => groups.some((g) => g.includes(first) && g.includes(second)));
    expect(together).toEqual(pairs);
  }
  expect(equalGroups(names, all)).toEqual([names]);
});

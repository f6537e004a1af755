import { guessTest } from 'datumline';
import { describe, expect, test } from 'vitest';

describe('what a name and a time tell', () => {
  const found = (file: string, span?: [number, number], within = '') => ({
    file: within === '' ? file : `${within}/${file}`,
    name: file.replace(/\.\w+$/, ''),
    ...(span ? { span } : {}),
  });
  const guessed = (...recordings: Parameters<typeof guessTest>[0]) =>
    guessTest(recordings).runs.map(({ name, recordings: of }) => [name, of.map(({ receiver }) => receiver)]);

  test('without times: the number in the name, or the folder', () => {
    expect(guessed(found('a_1.kml'), found('b_1.kml'), found('a_2.kml'))).toEqual([
      ['run 1', ['a', 'b']],
      ['run 2', ['a']],
    ]);
    expect(
      guessed(
        found('a.kml', undefined, 'morning'),
        found('b.kml', undefined, 'morning'),
        found('a.kml', undefined, 'noon'),
      ),
    ).toEqual([
      ['morning', ['a', 'b']],
      ['noon', ['a']],
    ]);
  });

  test('times before numbers: those that overlap are one run', () => {
    expect(
      guessed(found('wrist 7.gpx', [0, 100]), found('bar 3.gpx', [50, 160]), found('bar 4.gpx', [500, 600])),
    ).toEqual([
      ['run 1', ['wrist', 'bar']],
      ['run 2', ['bar']],
    ]);
  });

  test('words that all names have say nothing; a name of nothing else is the receiver', () => {
    expect(guessed(found('quay alder 1.gpx', [0, 9]), found('quay birch 1.gpx', [0, 9]))[0][1]).toEqual([
      'alder',
      'birch',
    ]);
    expect(guessed(found('20310501.gpx', [0, 9]))[0][1]).toEqual(['20310501']);
  });

  test('one receiver in all files is one', () => {
    expect(guessed(found('alder run 1.gpx', [0, 9]), found('alder run 2.gpx', [50, 59]))).toEqual([
      ['run 1', ['alder']],
      ['run 2', ['alder']],
    ]);
  });

  test('one receiver twice in a run is told', () => {
    const { sentences } = guessTest([found('a 1.gpx', [0, 9]), found('a 2.gpx', [0, 9])]);
    expect(sentences).toContain(
      '“a” stands in “run 1” more than once: say which is which, with "receiver" or "placement".',
    );
  });
});

test('what is no list of found recordings is refused, and named', () => {
  const wrong = (found: unknown) => () => guessTest(found as never);
  expect(wrong('a')).toThrow('found must be an array');
  expect(wrong([{ name: 'a' }])).toThrow('found[0].file must be');
  expect(wrong([{ file: 'a', name: '' }])).toThrow('found[0].name must be a string that is not empty');
  expect(wrong([{ file: 'a', name: 'a', within: 'b' }])).toThrow(
    'found[0].within must be one of file, name, track, span',
  );
  expect(wrong([{ file: 'a', name: 'a', span: [0] }])).toThrow('found[0].span[1] must be');
});

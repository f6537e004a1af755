import { readFileSync } from 'node:fs';
import type { TestFile } from 'datumline/assess';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkTestFile } from '../../src/runs/checkTestFile';
import { schemaJudge } from '../support/schemaJudge';
import { placesIn, spoil, spoilings } from '../support/spoilings';

const faultsOf = schemaJudge('testFile');

/** With every key there is. */
const full: TestFile = {
  $schema: 'node_modules/datumline/dist/schemas/testFile.json',
  version: 1,
  name: 'spring',
  route: 'route.json',
  runs: [
    {
      name: 'morning',
      date: '2031-05-01, dry',
      recordings: [
        { file: 'a.gpx', receiver: 'A', placement: 'left wrist', track: 'lap 1', zone: '+02:00', notes: 'new strap' },
        { file: 'b.gpx', receiver: 'B' },
      ],
      exclusions: [{ from: 350, to: 420, reason: 'road works' }],
      notes: '',
    },
  ],
  decoy: 'street.kml',
  centreline: 'centre.gpx',
  exclusions: [
    { from: 0, to: 10, reason: 'start' },
    { section: 'lane', reason: 'market day' },
  ],
  options: { leverArm: 0, equivalence: 0.5 },
  looks: { A: { colour: '#0a7b3C', dash: 'long-dashed' }, B: {} },
  notes: 'wind',
};
const demo = JSON.parse(readFileSync(new URL('../../examples/demo/test.json', import.meta.url), 'utf8'));
// biome-ignore lint/suspicious/noExplicitAny: a document to be spoilt
type Document = any;

test.each([
  ['one with every key', full],
  [
    'the shortest',
    { version: 1, route: 'r.gpx', runs: [{ name: '1', recordings: [{ file: 'a.fit', receiver: 'A' }] }] },
  ],
  ['the demo', demo],
])('%s is taken, by the schema too', (_, document) => {
  expect(faultsOf(document)).toEqual([]);
  expect(checkTestFile(document)).toBe(undefined);
});

test.each<[string, (document: Document) => unknown, reason: string, message: string]>([
  ['an unknown key', (t) => (t.weather = 'wind'), 'unknown-key', 'test.weather must be one of $schema, version, name,'],
  [
    'an unknown key of a run',
    (t) => (t.runs[0].weather = 1),
    'unknown-key',
    'test.runs[0].weather must be one of name,',
  ],
  ['a key of half a character', (t) => (t['\udc00'] = 1), 'unknown-key', 'test.\udc00 must be one of'],
  ['an unknown option', (t) => (t.options.sigma = 3), 'unknown-key', 'test.options.sigma must be one of leverArm,'],
  ['a key in other letters', (t) => (t.options.leverarm = 3), 'unknown-key', 'Did you mean leverArm?'],
  ['a key misspelt', (t) => (t.exclusion = []), 'unknown-key', 'Did you mean exclusions?'],
  ['a key misspelt within', (t) => (t.runs[0].recordings[0].reciever = 'A'), 'unknown-key', 'Did you mean receiver?'],
  [
    'a colour by its name',
    (t) => (t.looks.A.colour = 'red'),
    'out-of-range',
    'test.looks["A"].colour must be a colour as #rrggbb',
  ],
  ['a dash in numbers', (t) => (t.looks.A.dash = '3 1'), 'wrong-type', 'test.looks["A"].dash must be \'solid\''],
  [
    'a look of another key',
    (t) => (t.looks.A.width = 3),
    'unknown-key',
    'test.looks["A"].width must be one of colour, dash',
  ],
  ['no route', (t) => delete t.route, 'missing', 'test.route must be given, not undefined'],
  [
    'no receiver',
    (t) => delete t.runs[0].recordings[1].receiver,
    'missing',
    'test.runs[0].recordings[1].receiver must be',
  ],
  ['no reason', (t) => delete t.exclusions[0].reason, 'missing', 'test.exclusions[0].reason must be given'],
  [
    'a section and metres',
    (t) => (t.exclusions[1].from = 1),
    'unknown-key',
    'test.exclusions[1].from must be one of section',
  ],
  ['a section without name', (t) => (t.exclusions[1].section = ''), 'wrong-type', 'test.exclusions[1].section must be'],
  ['another version', (t) => (t.version = 2), 'unreadable', 'test.version must be 1, not 2'],
  ['a name that is a number', (t) => (t.name = 7), 'wrong-type', 'test.name must be a string that is not empty, not 7'],
  [
    'a file without name',
    (t) => (t.runs[0].recordings[0].file = ''),
    'wrong-type',
    'test.runs[0].recordings[0].file must',
  ],
  ['runs of null', (t) => (t.runs = null), 'wrong-type', 'test.runs must be an array, not null'],
  ['a run left empty', (t) => (t.runs[0] = null), 'wrong-type', 'test.runs[0] must be an object, not null'],
  ['no runs', (t) => (t.runs = []), 'too-few', 'test.runs must be an array of at least 1, not an empty array'],
  [
    'no recordings',
    (t) => (t.runs[0].recordings = []),
    'too-few',
    'test.runs[0].recordings must be an array of at least 1',
  ],
  ['a place before the start', (t) => (t.exclusions[0].from = -1), 'out-of-range', 'test.exclusions[0].from must be'],
  [
    'no margin',
    (t) => (t.options.equivalence = 0),
    'out-of-range',
    'test.options.equivalence must be a number above 0',
  ],
])('%s is refused, by the schema too', (_, spoilIt, reason, message) => {
  const document = structuredClone(full);
  spoilIt(document);
  const check = () => checkTestFile(document);
  expect(check).toThrow(expect.objectContaining({ name: 'InputError', reason }));
  expect(check).toThrow(message);
  if (!/half a character/.test(_)) expect(faultsOf(document)).not.toEqual([]);
});

test('what the schema takes is taken, and the reverse', () => {
  const seen = { refused: 0, taken: 0 };
  fc.assert(
    fc.property(spoilings, (changes) => {
      const document = JSON.parse(JSON.stringify(spoil(full, changes)) ?? 'null');
      let refused = false;
      try {
        checkTestFile(document);
      } catch (error) {
        refused = true;
        expect((error as Error).name).toBe('InputError');
      }
      seen[refused ? 'refused' : 'taken']++;
      expect(faultsOf(document).length > 0, JSON.stringify(document)).toBe(refused);
    }),
    { seed: 11, numRuns: 1000 },
  );
  expect(placesIn(full).length).toBeGreaterThan(30);
  expect(Math.min(seen.refused, seen.taken)).toBeGreaterThan(100);
});

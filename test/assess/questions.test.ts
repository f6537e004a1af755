import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { documentSchema } from '../../schemas.config';

type Schema = { $ref?: string; properties?: Record<string, Schema>; items?: Schema; anyOf?: Schema[] };
type Root = Schema & { definitions: Record<string, Schema> };

function fieldsOf(schema: Schema | undefined, root: Root): Record<string, Schema> {
  if (schema?.$ref) return fieldsOf(root.definitions[schema.$ref.replace('#/definitions/', '')], root);
  if (schema?.properties) return schema.properties;
  return fieldsOf(schema?.items ?? schema?.anyOf?.[0] ?? { properties: {} }, root);
}

const assessmentSchema = documentSchema('assessment') as Root;
const testSummarySchema = documentSchema('testSummary') as Root;

const text = readFileSync(new URL('../../src/assess/QUESTIONS.md', import.meta.url), 'utf8');
const lines = text.split('\n').filter((line) => line.startsWith('| ') && line.includes('?'));
const fieldsIn = (part = '') => [...part.matchAll(/`([\w.]+)`/g)].map(([, path]) => path);
// what stands after *summary* is a field of what combine returns
const named = lines.flatMap((line) => fieldsIn(line.split('*summary*')[0]));
const ofSummary = lines.flatMap((line) => line.split('*summary*').slice(1).flatMap(fieldsIn));

test.each([
  ['an assessment', assessmentSchema, named, 60],
  ['a summary', testSummarySchema, ofSummary, 12],
] as const)('every field of %s that answers a question exists', (_, schema, paths, least) => {
  const top = fieldsOf(schema, schema);
  expect(paths.length).toBeGreaterThan(least);
  for (const path of paths) {
    const [first, second] = path.split('.');
    expect(top, path).toHaveProperty(first);
    if (second) expect(fieldsOf(top[first], schema), path).toHaveProperty(second);
  }
});

test('every field that answers a question is read by a test of its figures', () => {
  const tests = ['../assess/', '../runs/', '../statistics/']
    .map((room) => new URL(room, import.meta.url))
    .flatMap((folder) =>
      readdirSync(folder)
        .filter((file) => file.endsWith('.test.ts') && !/questions|Schema/.test(file))
        .map((file) => readFileSync(new URL(file, folder), 'utf8')),
    )
    .join('\n');
  for (const path of [...named, ...ofSummary])
    expect(tests, path).toMatch(new RegExp(`\\b${path.split('.').at(-1)}\\b`));
});

test('every figure of a row and of a pair answers a question', () => {
  const plumbing = [
    'recording',
    'section',
    'from',
    'to',
    'first',
    'second',
    'closer',
    'recordedLength',
    'referenceLength',
  ];
  const detail = ['pairs.pValue', 'pairs.effectiveSamples'];
  const top = fieldsOf(assessmentSchema, assessmentSchema);
  for (const table of ['rows', 'pairs']) {
    for (const field of Object.keys(fieldsOf(top[table], assessmentSchema))) {
      if (plumbing.includes(field) || detail.includes(`${table}.${field}`)) continue;
      expect(named, `${table}.${field}`).toContain(`${table}.${field}`);
    }
  }
});

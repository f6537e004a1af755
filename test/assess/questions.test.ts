import { readFileSync } from 'node:fs';
import { assessmentSchema } from 'datumline';
import { expect, test } from 'vitest';

type Schema = { properties?: Record<string, Schema>; items?: Schema; anyOf?: Schema[] };

function fieldsOf(schema: Schema | undefined): Record<string, Schema> {
  if (schema?.properties) return schema.properties;
  return fieldsOf(schema?.items ?? schema?.anyOf?.[0] ?? { properties: {} });
}

const top = fieldsOf(assessmentSchema as Schema);
const text = readFileSync(new URL('../../src/assess/QUESTIONS.md', import.meta.url), 'utf8');
const lines = text.split('\n').filter((line) => line.startsWith('| ') && line.includes('?'));
// what a summary has is typed by TestSummary, not by this schema
const named = lines.flatMap((line) => [...line.split('*summary*')[0].matchAll(/`([\w.]+)`/g)].map(([, path]) => path));

test('every field that answers a question exists', () => {
  expect(named.length).toBeGreaterThan(60);
  for (const path of named) {
    const [first, second] = path.split('.');
    expect(top, path).toHaveProperty(first);
    if (second) expect(fieldsOf(top[first]), path).toHaveProperty(second);
  }
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
  for (const table of ['rows', 'pairs']) {
    for (const field of Object.keys(fieldsOf(top[table]))) {
      if (plumbing.includes(field) || detail.includes(`${table}.${field}`)) continue;
      expect(named, `${table}.${field}`).toContain(`${table}.${field}`);
    }
  }
});

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import * as datumline from 'datumline';
import * as report from 'datumline/report';
import { expect, test } from 'vitest';
import { runExample } from '../support/runExample';

const examples = new URL('../../examples/', import.meta.url);

/** Every TypeScript block of a guide; the blocks of one guide go on from one to the next. */
const guides = readdirSync(examples).flatMap((folder) => {
  const file = new URL(`${folder}/README.md`, examples);
  if (!existsSync(file)) return [];
  const blocks = [...readFileSync(file, 'utf8').matchAll(/```ts\n([\s\S]*?)```/g)].map(([, code]) => code);
  return blocks.length === 0 ? [] : [{ folder, code: blocks.join('\n').replace(/^import .* from '[^']+';\n/gm, '') }];
});

test('there are guides with code', () => {
  expect(guides.length).toBeGreaterThan(0);
});

test.each(guides)('the guide in examples/$folder gives what it shows', async ({ code }) => {
  await runExample(code, { ...datumline, ...report });
});

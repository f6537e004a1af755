import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as datumline from 'datumline';
import * as report from 'datumline/report';
import ts from 'typescript';
import { expect, test } from 'vitest';
import { runExample } from '../support/runExample';

const src = fileURLToPath(new URL('../../src', import.meta.url));

const examples = (readdirSync(src, { recursive: true }) as string[])
  .filter((file) => file.endsWith('.ts'))
  .flatMap((file) => {
    const text = readFileSync(join(src, file), 'utf8');
    return [...text.matchAll(/\/\*\*[\s\S]*?\*\//g)].flatMap(([comment]) => {
      const plain = comment.replace(/^\/\*\*|\*\/$/g, '').replace(/^[ \t]*\* ?/gm, '');
      return [...plain.matchAll(/^@example\n([\s\S]*?)(?=^@|(?![\s\S]))/gm)].map(([, code]) => ({
        file: relative(src, join(src, file)),
        code: code.replace(/^```\w*\n|^```\n?/gm, '').trim(),
      }));
    });
  });

test('docstrings carry examples', () => {
  expect(examples.length).toBeGreaterThan(5);
});

test.each(examples)('example in $file gives what it prints', async ({ code }) => {
  const { outputText } = ts.transpileModule(code, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
  });
  await runExample(outputText, { ...datumline, ...report });
});

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { checkSync } from 'recheck';
import ts from 'typescript';
import { expect, test } from 'vitest';

const src = fileURLToPath(new URL('../src', import.meta.url));

const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((file) => /\.tsx?$/.test(file));

/** Every regular expression written in src, as it stands there. */
const expressions = files.flatMap((file) => {
  const text = readFileSync(join(src, file), 'utf8');
  const found: [file: string, literal: string][] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isRegularExpressionLiteral(node)) found.push([file, node.text]);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(file, text, ts.ScriptTarget.Latest, false));
  return found;
});

test('there are as many expressions as the source has', () => {
  expect(expressions.length).toBeGreaterThan(50);
});

test.each(expressions)('%s %s goes through any text in time that grows with its length alone', (_, literal) => {
  const [, pattern, flags] = literal.match(/^\/(.*)\/([a-z]*)$/s)!;
  expect(checkSync(pattern, flags, { timeout: 20_000 })).toMatchObject({ status: 'safe' });
});

test('what does not is found: one that was in the source', () => {
  expect(checkSync('\\u00A0\\D+$', '')).toMatchObject({
    status: 'vulnerable',
    complexity: { type: 'polynomial', degree: 2 },
  });
});

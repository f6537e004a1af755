import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
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

const begins = ['', 'a', '1', '"', '$GPGLL,', '<?xml encoding', '\n', '0.', ' x', "'"];
const repeated = [
  ' ',
  '\t',
  '\n',
  '1',
  '0',
  'a',
  'N',
  ',',
  '.',
  '-',
  "'",
  '"',
  '\\',
  '(',
  '$',
  ':',
  ' ,',
  '1,',
  '1.',
  'lap ',
  ' 1',
  '\r\n',
  '.a',
  "' ",
  '=',
  '[',
  '<',
  '000',
];
const ends = ['', '!', '*', 'x', '\u0000', '*zz'];

/** Milliseconds that the worst of the texts of so many characters takes, and which that is. */
function worst(expression: RegExp, size: number): { time: number; text: string } {
  let [time, text] = [0, ''];
  for (const begin of begins) {
    for (const part of repeated) {
      const middle = part.repeat(Math.ceil(size / part.length));
      for (const end of ends) {
        const begun = performance.now();
        expression.lastIndex = 0;
        expression.exec(begin + middle + end);
        const took = performance.now() - begun;
        if (took > time) [time, text] = [took, JSON.stringify([begin, part, end])];
        if (time > 250) return { time, text };
      }
    }
  }
  return { time, text };
}

test('there are as many expressions as the source has', () => {
  expect(expressions.length).toBeGreaterThan(50);
});

// no measure of speed: a quadratic one takes a second where a linear one takes a twentieth of a millisecond
test.each(expressions)('%s %s goes through long texts in one go', (_, literal) => {
  const [, pattern, flags] = literal.match(/^\/(.*)\/([a-z]*)$/s)!;
  const expression = new RegExp(pattern, flags);
  for (const size of [300, 2_000, 20_000]) {
    const { time, text } = worst(expression, size);
    expect(time, `${size} characters: ${text}`).toBeLessThan(250);
    // a cubic one would not come back from the next size
    if (time > 100) expect.fail(`${time} ms for ${size} characters: ${text}`);
  }
});

import { expect } from 'vitest';

/** A printed number stands for every number that would be printed so: half a unit of its last digit, a whole unit before "…". */
class Printed {
  constructor(
    readonly text: string,
    readonly open: boolean,
  ) {}

  get value() {
    return Number(this.text);
  }

  get tolerance() {
    const [mantissa, exponent = '0'] = this.text.split(/e/i);
    const decimals = mantissa.split('.')[1]?.length ?? 0;
    if (!this.open && decimals === 0) return 0;
    return (this.open ? 1 : 0.5) * 10 ** (Number(exponent) - decimals) * (1 + 1e-9);
  }
}

function parseExpected(text: string): unknown {
  const source = text.replace(
    /('(?:[^'\\]|\\.)*')|(?<![\w.])(-?\d+(?:\.\d+)?(?:e-?\d+)?)(…)?/g,
    (whole, quoted, number, open) =>
      quoted ? whole : `printed(${JSON.stringify(number)}, ${open ? 'true' : 'false'})`,
  );
  return new Function('printed', `return (${source});`)((text: string, open: boolean) => new Printed(text, open));
}

function compare(actual: unknown, expected: unknown, at: string): void {
  if (expected instanceof Printed) {
    expect(typeof actual, at).toBe('number');
    const difference = Math.abs((actual as number) - expected.value);
    expect(difference <= expected.tolerance, `${at}: printed ${expected.text}, computed ${actual}`).toBe(true);
  } else if (Array.isArray(expected)) {
    expect((actual as ArrayLike<unknown>).length, `${at} length`).toBe(expected.length);
    for (const [i, item] of expected.entries()) compare((actual as unknown[])[i], item, `${at}[${i}]`);
  } else if (typeof expected === 'object' && expected !== null) {
    for (const [key, item] of Object.entries(expected)) {
      compare((actual as Record<string, unknown>)[key], item, `${at}.${key}`);
    }
  } else expect(actual, at).toEqual(expected);
}

/**
 * Runs the code of an example with `scope` as globals. A statement's trailing comment is its check:
 *
 * - `expression // → value`: the value, printed digits binding; an object lists the fields that matter
 * - `expression // throws reason: start of the message`
 *
 * An example must make at least one check.
 */
export async function runExample(code: string, scope: Record<string, unknown>): Promise<number> {
  let checks = 0;
  const body = code
    .split('\n')
    .map((line) => {
      const value = line.match(/^(\s*)(.+?);?\s*\/\/ → (.+)$/);
      if (value) return `${value[1]}check(await (${value[2]}), ${JSON.stringify(value[3])});`;
      const thrown = line.match(/^(\s*)(.+?);?\s*\/\/ throws ([\w-]+)(?:: (.+))?$/);
      if (thrown) {
        const [, indent, expression, reason, message = ''] = thrown;
        return `${indent}await refuse(async () => (${expression}), ${JSON.stringify(reason)}, ${JSON.stringify(message)});`;
      }
      return line;
    })
    .join('\n');
  const check = (actual: unknown, expected: string) => {
    checks++;
    compare(actual, parseExpected(expected), expected);
  };
  const refuse = async (run: () => Promise<unknown>, reason: string, message: string) => {
    checks++;
    await expect(run()).rejects.toMatchObject({ reason, message: expect.stringContaining(message) });
  };
  const names = Object.keys(scope);
  const AsyncFunction = (async () => {}).constructor as new (
    ...args: string[]
  ) => (...args: unknown[]) => Promise<unknown>;
  const run = new AsyncFunction(...names, 'check', 'refuse', body);
  await run(...names.map((name) => scope[name]), check, refuse);
  expect(checks, `checks in\n${code}`).toBeGreaterThan(0);
  return checks;
}

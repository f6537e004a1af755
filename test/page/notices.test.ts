import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const read = (name: string) => readFileSync(fileURLToPath(new URL(`../../${name}`, import.meta.url)), 'utf8');

test('of every package that the page imports the notice is in the package', () => {
  const files = readdirSync(fileURLToPath(new URL('../../src/page', import.meta.url)), {
    recursive: true,
    encoding: 'utf8',
  });
  const imported = files
    .filter((name) => /\.tsx?$/.test(name))
    .flatMap((name) => [...read(`src/page/${name}`).matchAll(/from '((?:@[^/']+\/)?[^./'][^/']*)/g)])
    // the library itself, and types, which leave nothing behind
    .flatMap(([, name]) => (['datumline', 'geojson'].includes(name) ? [] : name));
  expect(imported).toEqual(expect.arrayContaining(['ol', 'preact', '@preact/signals', 'idb-keyval', 'fflate']));
  const notices = read('dist/THIRD-PARTY.txt');
  expect([...new Set(imported)].filter((name) => !new RegExp(`^${name} \\d`, 'm').test(notices))).toEqual([]);
});

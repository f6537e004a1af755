import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { unzipSync } from 'fflate';
import { expect } from 'vitest';
import { sameFigures } from '../support/sameFigures';

const command = fileURLToPath(new URL('../../dist/cli.js', import.meta.url));

/** What the page saved, unpacked, and what the command made of it. */
export interface JudgedAgain {
  /** Where it was unpacked; what the command wrote is in its folder `again`. */
  readonly place: string;
  /** What the command wrote. */
  readonly written: string[];
  read(name: string): string;
}

/** Unpacks what the page saved into an empty folder and has the command judge the test in it. */
export function commandAgain(zip: string, place: string): JudgedAgain {
  for (const [name, content] of Object.entries(unzipSync(readFileSync(zip)))) {
    mkdirSync(dirname(join(place, name)), { recursive: true });
    writeFileSync(join(place, name), content);
  }
  const words = ['assess', join(place, 'test.json'), '--out', join(place, 'again')];
  execFileSync(process.execPath, [command, ...words], { stdio: 'pipe' });
  const written = readdirSync(join(place, 'again')).filter((name) => !name.startsWith('.'));
  return { place, written, read: (name) => readFileSync(join(place, name), 'utf8') };
}

/** What the browser found and what the command found of the same files, hashes included. */
export function expectSame({ written, read }: JudgedAgain, least = 30_000): void {
  let numbers = 0;
  for (const name of written.filter((one) => one.endsWith('.json'))) {
    numbers += sameFigures(JSON.parse(read(`again/${name}`)), JSON.parse(read(name)), name).numbers;
  }
  expect(numbers).toBeGreaterThan(least);
  const lines = (text: string) => text.split('\n').map((line) => line.replaceAll(/[\d.]+/g, ''));
  expect(lines(read('rows.csv'))).toEqual(lines(read('again/rows.csv')));
  expect(Math.abs(read('report.html').length - read('again/report.html').length)).toBeLessThan(2000);
}

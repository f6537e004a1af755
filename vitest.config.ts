import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const src = fileURLToPath(new URL('./src', import.meta.url));

const tests = ['test/**/*.test.{ts,tsx}'];
/** Those that put other modules in the place of the library's. */
const apart = ['test/metrics/FreeSpace.test.ts', 'test/report/publish.test.ts'];

export default defineConfig({
  resolve: {
    alias: [
      { find: /^datumline$/, replacement: `${src}/subpaths/index.ts` },
      { find: /^datumline\/(.+)$/, replacement: `${src}/subpaths/$1.ts` },
    ],
  },
  // In development JSX would carry file and line into the markup as attributes.
  oxc: { jsx: { development: false } },
  test: {
    testTimeout: 60_000,
    // what a page shows comes a moment after what was done to it, on a busy machine several
    expect: { poll: { timeout: 20_000 } },
    // all cores: whoever waits for a command or a browser leaves one to the other
    maxWorkers: '100%',
    // One file after the other in the same process: what the library's modules cost to load is paid once, not 190 times.
    projects: [
      { extends: true, test: { name: 'together', include: tests, exclude: apart, isolate: false } },
      { extends: true, test: { name: 'apart', include: apart } },
    ],
    coverage: { include: ['src/**'], exclude: ['src/**/index.ts', 'src/subpaths/**'] },
  },
});

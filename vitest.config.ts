import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const src = fileURLToPath(new URL('./src', import.meta.url));

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
    include: ['test/**/*.test.{ts,tsx}'],
    testTimeout: 60_000,
    coverage: { include: ['src/**'], exclude: ['src/**/index.ts', 'src/subpaths/**'] },
  },
});

import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/**
 * The built package as one file that a page can load without a bundler of its own. The dependencies go in with it: they are
 * imported by bare names, and some are CommonJS, which no import map helps with.
 */
export async function bundle(outfile: string): Promise<void> {
  const entry = fileURLToPath(new URL('../../dist/index.js', import.meta.url));
  if (!existsSync(entry)) throw new Error('the package is not built: npm run build');
  await build({
    entryPoints: [entry],
    outfile,
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'browser',
    target: 'es2022',
    // read on demand, and only where an app brings it
    external: ['fit-file-parser'],
    // chunks of the package that only hold types and constants: nothing to run
    logOverride: { 'ignored-bare-import': 'silent' },
    logLevel: 'warning',
  });
}

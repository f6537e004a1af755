import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import type { Metafile } from 'esbuild';
import { defineConfig, type Options } from 'tsup';
import { bareGeodesics } from './build/bareGeodesics';
import { writeDeclarations } from './build/declarations';
import { noticesOf, packagesOf } from './build/notices';
import { tersePackages } from './build/tersePackages';
import { unfollowed } from './build/unfollowed';
import { writeCommonJs } from './build/writeCommonJs';
import { writeSchemas } from './schemas.config';

rmSync('dist', { recursive: true, force: true });

const rooms = ['geodesy', 'route', 'snap', 'metrics', 'assess', 'formats', 'report'];
const entry = {
  index: 'src/subpaths/index.ts',
  ...Object.fromEntries(rooms.map((room) => [`${room}/index`, `src/subpaths/${room}.ts`])),
};

const unfollowedImports = { name: 'unfollowed imports', renderChunk: (code: string) => ({ code: unfollowed(code) }) };

const shared: Options = {
  target: 'es2022',
  platform: 'neutral',
  // Shared chunks, so that InputError is one class whichever entry it came through.
  splitting: true,
  // Development dependencies are inlined: a user installs next to nothing, and no bundler meets CommonJS.
  external: [/^node:/],
  minifyWhitespace: true,
  esbuildPlugins: [bareGeodesics, tersePackages],
  plugins: [unfollowedImports],
};

/** The notices of what is left when unused code is shaken out. */
function writeNotices(outputs: Metafile['outputs']): void {
  const packages = packagesOf(Object.values(outputs).flatMap((output) => Object.keys(output.inputs)));
  mkdirSync('dist', { recursive: true });
  writeFileSync('dist/THIRD-PARTY.txt', noticesOf(packages));
}

export default defineConfig([
  {
    ...shared,
    format: 'esm',
    minifySyntax: true,
    entry: { ...entry, cli: 'src/cli.ts', command: 'src/cli/command.ts', worker: 'src/cli/worker.ts' },
    esbuildPlugins: [
      bareGeodesics,
      tersePackages,
      {
        name: 'notices',
        setup(build) {
          build.initialOptions.metafile = true;
          build.onEnd(({ metafile }) => writeNotices(metafile?.outputs ?? {}));
        },
      },
    ],
    onSuccess: async () => {
      writeSchemas('dist/schemas');
      writeCommonJs(Object.keys(entry), 'dist');
      await writeDeclarations(entry, 'dist');
    },
  },
  // for pages and notebooks: one file, no bundler, an import map or none
  {
    ...{ entry: { 'datumline.min': 'src/subpaths/whole.ts' }, format: 'esm', target: 'es2022', platform: 'browser' },
    ...{
      splitting: false,
      minify: true,
      external: [/^node:/],
      esbuildPlugins: [bareGeodesics],
      plugins: [unfollowedImports],
    },
  },
]);

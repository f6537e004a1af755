import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { defineConfig, type Options } from 'tsup';
import { writeSchemas } from './schemas.config';

rmSync('dist', { recursive: true, force: true });

const rooms = ['geodesy', 'route', 'snap', 'metrics', 'assess', 'formats', 'report'];
const entry = {
  index: 'src/subpaths/index.ts',
  ...Object.fromEntries(rooms.map((room) => [`${room}/index`, `src/subpaths/${room}.ts`])),
};

const shared: Options = {
  target: 'es2022',
  platform: 'neutral',
  // Shared chunks, so that InputError is one class whichever entry it came through.
  splitting: true,
  sourcemap: true,
  // tsup hands its own options to TypeScript, which calls some of them deprecated.
  dts: { entry, compilerOptions: { ignoreDeprecations: '6.0' } },
  external: [/^node:/],
  // ESM-only packages: inlined, or require() fails outside the newest Node.
  noExternal: ['rbush', 'quickselect', /^d3-/, 'internmap'],
};

/** The licences of the inlined packages ask that their notices travel with the code. */
function writeNotices(inputs: readonly string[]): void {
  const packages = new Set(inputs.flatMap((input) => input.match(/node_modules\/((?:@[^/]+\/)?[^/]+)/)?.[1] ?? []));
  const notices = [...packages].sort().map((name) => {
    const folder = join('node_modules', name);
    const file = readdirSync(folder).find((candidate) => /^licen[cs]e/i.test(candidate));
    const { version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    return `${name} ${version} (${license})\n\n${file ? readFileSync(join(folder, file), 'utf8').trim() : 'no licence file'}\n`;
  });
  mkdirSync('dist', { recursive: true });
  writeFileSync('dist/THIRD-PARTY.txt', notices.join('\n----\n\n'));
}

export default defineConfig([
  {
    ...shared,
    format: 'esm',
    entry: { ...entry, cli: 'src/cli.ts', worker: 'src/cli/worker.ts' },
    esbuildPlugins: [
      {
        name: 'notices',
        setup(build) {
          build.initialOptions.metafile = true;
          build.onEnd(({ metafile }) => writeNotices(Object.keys(metafile?.inputs ?? {})));
        },
      },
    ],
    onSuccess: async () => writeSchemas('dist/schemas'),
  },
  { ...shared, format: 'cjs', entry },
]);

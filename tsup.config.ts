import { rmSync } from 'node:fs';
import { defineConfig, type Options } from 'tsup';

rmSync('dist', { recursive: true, force: true });

const rooms = ['geodesy', 'route', 'snap', 'metrics', 'assess', 'formats', 'report'];
const entry = {
  index: 'src/index.ts',
  ...Object.fromEntries(rooms.map((room) => [`${room}/index`, `src/${room}/index.ts`])),
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

export default defineConfig([
  { ...shared, format: 'esm', entry: { ...entry, cli: 'src/cli.ts' } },
  { ...shared, format: 'cjs', entry },
]);

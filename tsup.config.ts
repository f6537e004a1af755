import { defineConfig } from 'tsup';

const rooms = ['geodesy', 'route', 'snap', 'metrics', 'assess', 'formats', 'report'];

export default defineConfig({
  entry: {
    index: 'src/index.ts',
    cli: 'src/cli.ts',
    ...Object.fromEntries(rooms.map((room) => [`${room}/index`, `src/${room}/index.ts`])),
  },
  format: ['esm', 'cjs'],
  target: 'es2022',
  platform: 'neutral',
  // Shared chunks, so that InputError is one class whichever entry it came through.
  splitting: true,
  clean: true,
  sourcemap: true,
  dts: { compilerOptions: { ignoreDeprecations: '6.0' } },
  external: [/^node:/],
  // ESM-only packages: inlined, or require() fails outside the newest Node.
  noExternal: ['rbush', 'quickselect', /^d3-/, 'internmap'],
});

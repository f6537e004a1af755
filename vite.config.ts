import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';

const src = fileURLToPath(new URL('./src', import.meta.url));

export default defineConfig({
  root: `${src}/page`,
  resolve: {
    alias: [
      { find: /^datumline$/, replacement: `${src}/subpaths/index.ts` },
      { find: /^datumline\/(.+)$/, replacement: `${src}/subpaths/$1.ts` },
    ],
  },
  plugins: [viteSingleFile()],
  build: {
    outDir: fileURLToPath(new URL('./dist', import.meta.url)),
    emptyOutDir: false,
    target: 'es2022',
    rollupOptions: { input: `${src}/page/page.html` },
  },
});

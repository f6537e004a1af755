import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';
import { noticesOf, packagesIn, packagesOf } from './build/notices.ts';
import { pageScript } from './src/report/pageScript.ts';

const src = fileURLToPath(new URL('./src', import.meta.url));
const file = fileURLToPath(new URL('./dist/page.html', import.meta.url));
const hashOf = (script: string) => `'sha256-${createHash('sha256').update(script).digest('base64')}'`;

/**
 * The page's policy: its own script, that of a report shown within it, and nothing from anywhere. A report inherits it, and
 * runs in a frame without an origin.
 */
const policy: Plugin = {
  name: 'policy',
  writeBundle() {
    const html = readFileSync(file, 'utf8');
    const [, script] = /<script type="module"[^>]*>([\s\S]*?)<\/script>/.exec(html)!;
    const rules = [
      "default-src 'none'",
      `script-src ${hashOf(script)} ${hashOf(pageScript)}`,
      "style-src 'unsafe-inline'",
      'img-src data: blob:',
      'worker-src blob:',
      "connect-src 'none'",
      "frame-src 'none'",
      "base-uri 'none'",
      "form-action 'none'",
    ];
    const meta = `<meta http-equiv="Content-Security-Policy" content="${rules.join('; ')}">`;
    writeFileSync(file, html.replace('<meta charset="utf-8">', `<meta charset="utf-8">\n    ${meta}`));
  },
};

/** The notices of the packages in the page, added to those of the library, whose build is done before. */
const notices: Plugin = {
  name: 'notices',
  generateBundle(_, bundle) {
    const files = Object.values(bundle).flatMap((part) => {
      if (part.type === 'asset') return part.originalFileNames;
      return Object.keys(part.modules).filter((id) => part.modules[id].renderedLength > 0);
    });
    const list = fileURLToPath(new URL('./dist/THIRD-PARTY.txt', import.meta.url));
    const there = existsSync(list) ? packagesIn(readFileSync(list, 'utf8')) : [];
    writeFileSync(list, noticesOf([...there, ...packagesOf(files)]));
  },
};

/** Styles that are told as JSON, which the map's library reads by an interpreter of its own: the page has none. */
const plainStyles: Plugin = {
  name: 'plain styles',
  load: (id) => (id.endsWith('/ol/render/canvas/style.js') ? noStyles : undefined),
};
const noStyles =
  "export const flatStyleLikeToStyleFunction = () => { throw new Error('styles as JSON are left out of this page'); };";

export default defineConfig({
  root: `${src}/page`,
  resolve: {
    alias: [
      { find: /^datumline$/, replacement: `${src}/subpaths/index.ts` },
      { find: /^datumline\/(.+)$/, replacement: `${src}/subpaths/$1.ts` },
    ],
  },
  plugins: [plainStyles, notices, viteSingleFile(), policy],
  build: {
    outDir: fileURLToPath(new URL('./dist', import.meta.url)),
    emptyOutDir: false,
    target: 'es2022',
    // one part for the page, one for the worker, each run where it is wanted
    modulePreload: false,
    // pictures as PNG are nobody's wish here
    rollupOptions: {
      input: `${src}/page/page.html`,
      external: ['@resvg/resvg-js'],
      output: { format: 'iife' },
      checks: { emptyImportMeta: false },
    },
  },
});

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { rollup } from 'rollup';
import { dts } from 'rollup-plugin-dts';

/**
 * Types of every entry, for ESM and for CommonJS. What entries share lies in files named after what is in them, so that a consumer's
 * own declarations, which may name them, stay as they are from one version to the next.
 *
 * @param entry - source file by the name of the entry
 */
export async function writeDeclarations(entry: Readonly<Record<string, string>>, folder: string): Promise<void> {
  const plain = mkdtempSync(join(tmpdir(), 'declarations-'));
  try {
    const words = ['--noEmit', 'false', '--emitDeclarationOnly', '--declaration', '--rootDir', '.', '--outDir', plain];
    execFileSync('node', ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json', ...words], {
      stdio: 'inherit',
    });
    const declared = (file: string) => join(plain, file.replace(/\.ts$/, '.d.ts'));
    const bundle = await rollup({
      input: Object.fromEntries(Object.entries(entry).map(([name, file]) => [name, declared(file)])),
      plugins: [dts()],
      external: /^[^./]/,
    });
    const { output } = await bundle.write({
      dir: folder,
      format: 'es',
      entryFileNames: '[name].d.ts',
      chunkFileNames: ({ name }) => `types/${name.replace(/\.d$/, '')}.d.ts`,
      minifyInternalExports: false,
    });
    for (const { fileName } of output) {
      // of files that are needed only to be loaded there are none among types; a tab is shorter than four blanks
      const text = readFileSync(join(folder, fileName), 'utf8')
        .replace(/^import '\.[^']*';\n/gm, '')
        .replace(/^( {4})+/gm, (blanks) => '\t'.repeat(blanks.length / 4));
      writeFileSync(join(folder, fileName), text);
      const name = join(folder, fileName.replace(/\.ts$/, '.cts'));
      writeFileSync(name, text.replace(/(from '\.[^']*)\.js'/g, "$1.cjs'"));
    }
  } finally {
    rmSync(plain, { recursive: true });
  }
}

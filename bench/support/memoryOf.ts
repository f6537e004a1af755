import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** By how many times the document the memory of a process that reads it rises at the highest, garbage included. */
export function memoryOf(document: Uint8Array, reader: 'ours' | 'any' | 'fast-xml-parser'): number {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-bench-'));
  try {
    const file = join(folder, 'bench.gpx');
    writeFileSync(file, document);
    const script = fileURLToPath(new URL('peakMemory.ts', import.meta.url));
    const said = execFileSync(process.execPath, ['--import', 'tsx', script, file, reader], { encoding: 'utf8' });
    return Number(said) / document.length;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

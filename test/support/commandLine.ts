import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));
// inside the package, so that what it imports is found
const folder = `${root}node_modules/.cache/datumline-command-${process.pid}`;

/** The built command, for a test that talks to it in its own way. */
export const commandFile = `${folder}/cli.js`;

/** What a command printed and how it ended. */
export interface Outcome {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Builds the command from the sources as they are, as the package does; returns a function that runs it in `cwd`. */
export async function buildCommand(
  cwd: string,
): Promise<(words: readonly string[], input?: string) => Promise<Outcome>> {
  await build({
    entryPoints: { cli: `${root}src/cli.ts`, command: `${root}src/cli/command.ts`, worker: `${root}src/cli/worker.ts` },
    outdir: folder,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'es2022',
    packages: 'external',
    logLevel: 'warning',
  });
  return (words, input = '') =>
    new Promise((resolve, reject) => {
      const child = spawn(process.execPath, [commandFile, ...words], { cwd });
      const printed = { stdout: '', stderr: '' };
      child.stdout.on('data', (chunk) => (printed.stdout += chunk));
      child.stderr.on('data', (chunk) => (printed.stderr += chunk));
      child.on('error', reject);
      child.on('close', (status) => resolve({ status, ...printed }));
      child.stdin.on('error', () => {}); // a command that reads nothing may end before it is written
      child.stdin.end(input);
    });
}

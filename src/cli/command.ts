import { setFlagsFromString } from 'node:v8';
import { sentenceOf } from './explain';
import { interrupted } from './interrupted';
import { runCommand } from './runCommand';
import { tell } from './tell';

// What cli.ts starts: the command itself, in a process of its own.

// Node compiles for speed what has run a while, here fifteen times as long: most of a short command would be over before that has
// paid, and it took two fifths of the demo's processor time (6.5 s of it, 3.7 s without, on a busy machine). Later
// engines have other means, no such setting, and say so aloud when they are told of one.
if (process.versions.v8?.startsWith('11.')) setFlagsFromString('--interrupt-budget=1000000');

// Files are written before anything is printed: whoever ends the command early loses none.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // a reader that has seen enough (`| head`) closes the pipe: that is no failure, and the status stays what the run earns
  if (error.code === 'EPIPE') return;
  tell(`standard output: ${sentenceOf(error)}`);
  process.exit(1);
});
// nobody is left to be told
process.stderr.on('error', () => {});

for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => interrupted(signal));

// killed outright, whoever started this can tell nothing any more: nothing is written either
process.on('disconnect', () => process.exit(1));
process.channel?.unref();

process.exitCode = await runCommand(process.argv.slice(2));

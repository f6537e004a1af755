import { setFlagsFromString } from 'node:v8';
import { hearOutput } from './hearOutput';
import { interrupted } from './interrupted';
import { runCommand } from './runCommand';

// What cli.ts starts: the command itself, in a process of its own.

// Node compiles for speed what has run a while, here fifteen times as long: most of a short command would be over before that has
// paid, and it took two fifths of the demo's processor time (6.5 s of it, 3.7 s without, on a busy machine). Later
// engines have other means, no such setting, and say so aloud when they are told of one.
if (process.versions.v8?.startsWith('11.')) setFlagsFromString('--interrupt-budget=1000000');

hearOutput();
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => interrupted(signal));

// killed outright, whoever started this can tell nothing any more: nothing is written either
process.on('disconnect', () => process.exit(1));
process.channel?.unref();

process.exitCode = await runCommand(process.argv.slice(2));

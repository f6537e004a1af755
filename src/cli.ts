#!/usr/bin/env node
import { statSync } from 'node:fs';
import { constants } from 'node:os';
import { fileURLToPath } from 'node:url';
import { version } from '../package.json';
import { hearOutput } from './cli/hearOutput';
import { interrupted } from './cli/interrupted';
import { print } from './cli/print';
import { tell } from './cli/tell';

// Whoever computes hears no signal before it is done. So a process of its own does the work, which a signal ends at once where
// it computes, and this one tells it. What is over at once needs none: to start it would take longer than the work.

/** Bytes of a route that is looked at within the time that starting a process takes, more or less. */
const AT_ONCE = 100_000;

/** Whether it is `route FILE` of a small file. */
function isShort([command, file, ...rest]: readonly string[]): boolean {
  if (command !== 'route' || file === undefined || rest.length > 0) return false;
  try {
    return statSync(file).size <= AT_ONCE;
  } catch {
    // what is wrong with it the command tells
    return true;
  }
}

const words = process.argv.slice(2);
if (words[0] === '--version') {
  hearOutput();
  print(`${version}\n`);
} else if (isShort(words)) await import('./cli/command');
else {
  // loaded only here, as that takes longer than to tell the version
  const { spawn } = await import('node:child_process');
  const command = fileURLToPath(new URL('./command.js', import.meta.url));
  const child = spawn(process.execPath, [...process.execArgv, command, ...words], {
    // by the last the other hears when this one is killed outright
    stdio: ['inherit', 'inherit', 'inherit', 'ipc'],
  });
  // from a terminal both get it, from elsewhere this one alone
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal));
  child.on('error', ({ message }) => {
    tell(`the command could not be started: ${message}`);
    process.exitCode = 1;
  });
  child.on('close', (status, signal) => {
    if (signal === 'SIGINT' || signal === 'SIGTERM') interrupted(signal);
    if (signal !== null) tell(`ended by ${signal} (${constants.signals[signal]}), before it was done`);
    process.exitCode = status ?? 1;
  });
}

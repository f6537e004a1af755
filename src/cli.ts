#!/usr/bin/env node
import { spawn } from 'node:child_process';
import { constants } from 'node:os';
import { fileURLToPath } from 'node:url';
import { version } from '../package.json';
import { interrupted } from './cli/interrupted';
import { print } from './cli/print';
import { tell } from './cli/tell';

// Whoever computes hears no signal before it is done. So a process of its own does the work, which a signal ends at once where
// it computes, and this one tells it.

const words = process.argv.slice(2);
if (words[0] === '--version') print(`${version}\n`);
else {
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

import { constants } from 'node:os';
import { tell } from './tell';

/** Tells that a signal has ended the command, and ends it with the status that says so. */
export function interrupted(signal: 'SIGINT' | 'SIGTERM'): never {
  tell('interrupted; files are written whole or not at all');
  process.exit(128 + constants.signals[signal]);
}

#!/usr/bin/env node
import { runCommand } from './cli/runCommand';

// A reader that has seen enough (`| head`) closes the pipe: that is no failure.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit(0);
});

process.exitCode = await runCommand(process.argv.slice(2));

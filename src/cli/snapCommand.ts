import { CommandError, wrongUsage } from './CommandError';
import type { CommandArguments } from './runCommand';

/** `datumline snap ROUTE RECORDING`. */
export async function snapCommand({ files }: CommandArguments): Promise<void> {
  if (files.length !== 2) throw wrongUsage(`snap takes one ROUTE and one RECORDING, not ${files.length} files`, 'snap');
  throw new CommandError('snap cannot read recordings in this version', 1);
}

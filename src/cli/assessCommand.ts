import { CommandError, wrongUsage } from './CommandError';
import type { CommandArguments } from './runCommand';

/** `datumline assess ROUTE RECORDING... --out DIR` and `datumline assess TEST.json --out DIR`. */
export async function assessCommand({ files, out }: CommandArguments): Promise<void> {
  if (files.length === 0) throw wrongUsage('assess takes a ROUTE and RECORDINGs, or one TEST.json', 'assess');
  if (out === undefined) throw wrongUsage('assess needs --out DIR, where to write', 'assess');
  throw new CommandError('assess cannot read recordings in this version', 1);
}

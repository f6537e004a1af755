import type { CommandArguments } from './CommandArguments';
import { CommandError, wrongUsage } from './CommandError';

/**
 * Refuses a baseline that is none of the receivers, naming those there are.
 *
 * @param receivers - every receiver of the test, or the recordings' names where none is stated
 */
export function checkBaseline(
  baseline: string,
  receivers: readonly string[],
  { baseline: asked, files }: Pick<CommandArguments, 'baseline' | 'files'>,
) {
  if (receivers.includes(baseline)) return;
  const names = [...new Set(receivers)].map((name) => `"${name}"`);
  const rule = `must be ${[names.slice(0, -1).join(', '), names.at(-1)].filter(Boolean).join(' or ')}, not "${baseline}"`;
  if (asked !== undefined) throw wrongUsage(`--baseline ${rule}`, 'assess');
  throw new CommandError(`${files[0]}: test.options.baseline ${rule}`, 1);
}

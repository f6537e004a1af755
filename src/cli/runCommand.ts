import { parseArgs } from 'node:util';
import { version } from '../../package.json';
import { assessCommand } from './assessCommand';
import type { CommandArguments } from './CommandArguments';
import { CommandError, wrongUsage } from './CommandError';
import { sentenceOf } from './explain';
import { helpTexts } from './helpTexts';
import { pictureArguments } from './pictureArguments';
import { planCommand } from './planCommand';
import { print } from './print';
import { routeCommand } from './routeCommand';
import { snapCommand } from './snapCommand';
import { tell } from './tell';

const commands = {
  assess: {
    run: assessCommand,
    options: ['out', 'baseline', 'zone', 'pictures', 'theme', 'width', 'threads', 'ndjson'],
  },
  route: { run: routeCommand, options: ['out'] },
  snap: { run: snapCommand, options: ['out', 'zone', 'threads', 'ndjson'] },
} as const;

const kinds = {
  out: { type: 'string' },
  baseline: { type: 'string' },
  zone: { type: 'string' },
  threads: { type: 'string' },
  pictures: { type: 'string' },
  theme: { type: 'string' },
  width: { type: 'string' },
  ndjson: { type: 'boolean' },
} as const;

/** Runs the command line `words`; returns the exit status and never throws. */
export async function runCommand(words: readonly string[]): Promise<0 | 1 | 2> {
  try {
    await dispatch(words);
    return 0;
  } catch (error) {
    tell(sentenceOf(error));
    return error instanceof CommandError ? error.exitCode : 1;
  }
}

async function dispatch([name, ...rest]: readonly string[]): Promise<void> {
  if (name === '--help' || name === '-h' || name === 'help') return print(helpTexts['']);
  if (name === '--version') return print(`${version}\n`);
  if (name === undefined) throw wrongUsage('missing command: assess, plan, route or snap');
  if (name === 'plan') {
    return rest.includes('--help') || rest.includes('-h') ? print(helpTexts.plan) : planCommand(rest);
  }
  if (!Object.hasOwn(commands, name))
    throw wrongUsage(`unknown command "${name}": expected assess, plan, route or snap`);
  const command = name as keyof typeof commands;
  if (rest.includes('--help') || rest.includes('-h')) return print(helpTexts[command]);
  await commands[command].run(readArguments(command, rest));
}

function readArguments(command: keyof typeof commands, words: string[]): CommandArguments {
  const options = Object.fromEntries(commands[command].options.map((option) => [option, kinds[option]]));
  let parsed: { values: Record<string, unknown>; positionals: string[] };
  try {
    parsed = parseArgs({ args: words, options, allowPositionals: true });
  } catch (error) {
    throw wrongUsage(sentenceOf(error).split('. ')[0], command);
  }
  const { out, baseline, zone, threads, ndjson } = parsed.values as { [key in keyof typeof kinds]?: string };
  if (out === '') throw wrongUsage('--out must not be empty', command);
  if (baseline === '') throw wrongUsage('--baseline must not be empty', command);
  if (threads !== undefined && !/^[1-9]\d{0,3}$/.test(threads)) {
    throw wrongUsage(`--threads must be a whole number of at least 1, not "${threads}"`, command);
  }
  return {
    ...pictureArguments(parsed.values, command),
    files: parsed.positionals,
    out,
    baseline,
    zone,
    threads: threads === undefined ? undefined : Number(threads),
    ndjson: ndjson ? 'each line' : 'off',
  };
}

import { parseArgs } from 'node:util';
import type { CommandArguments } from './CommandArguments';
import { CommandError, wrongUsage } from './CommandError';
import { sentenceOf } from './explain';
import { helpTexts } from './helpTexts';
import { pictureArguments } from './pictureArguments';
import { print } from './print';
import { tell } from './tell';

// each with its parts when it is called: whoever asks for the version waits for nothing else
const commands = {
  assess: {
    run: async (given: CommandArguments) => (await import('./assessCommand')).assessCommand(given),
    options: [
      ...(['out', 'baseline', 'truth', 'areas', 'surroundings', 'table', 'fixes', 'times'] as const),
      ...(['pictures', 'theme', 'width', 'zone', 'threads', 'ndjson', 'figures'] as const),
    ],
  },
  combine: {
    run: async (given: CommandArguments) => (await import('./combineCommand')).combineCommand(given),
    options: ['out', 'baseline', 'ndjson'],
  },
  page: {
    run: async (given: CommandArguments) => (await import('./pageCommand')).pageCommand(given),
    options: ['out', 'serve'],
  },
  route: {
    run: async (given: CommandArguments) => (await import('./routeCommand')).routeCommand(given),
    options: ['out', 'draft'],
  },
  test: {
    run: async (given: CommandArguments) => (await import('./testCommand')).testCommand(given),
    options: ['route', 'out', 'overwrite', 'zone'],
  },
  snap: {
    run: async (given: CommandArguments) => (await import('./snapCommand')).snapCommand(given),
    options: ['out', 'times', 'zone', 'threads', 'ndjson'],
  },
} as const;

const kinds = {
  out: { type: 'string' },
  baseline: { type: 'string' },
  truth: { type: 'string' },
  areas: { type: 'string' },
  surroundings: { type: 'string' },
  route: { type: 'string' },
  overwrite: { type: 'boolean' },
  serve: { type: 'boolean' },
  table: { type: 'string' },
  fixes: { type: 'boolean' },
  times: { type: 'string' },
  zone: { type: 'string' },
  threads: { type: 'string' },
  pictures: { type: 'string' },
  theme: { type: 'string' },
  width: { type: 'string' },
  ndjson: { type: 'boolean' },
  figures: { type: 'boolean' },
  draft: { type: 'boolean' },
} as const;

/** Runs the command line `words`; returns the exit status and never throws. */
export async function runCommand(words: readonly string[]): Promise<0 | 1 | 2 | 3> {
  try {
    return (await dispatch(words)) === 'not all' ? 3 : 0;
  } catch (error) {
    tell(sentenceOf(error));
    return error instanceof CommandError ? error.exitCode : 1;
  }
}

async function dispatch([name, ...rest]: readonly string[]): Promise<unknown> {
  if (name === '--help' || name === '-h' || name === 'help') return print(helpTexts['']);
  if (name === undefined) throw wrongUsage('missing command: assess, combine, page, plan, route, snap or test');
  if (name === 'plan') {
    return rest.includes('--help') || rest.includes('-h')
      ? print(helpTexts.plan)
      : (await import('./planCommand')).planCommand(rest);
  }
  if (!Object.hasOwn(commands, name))
    throw wrongUsage(`unknown command "${name}": expected assess, combine, page, plan, route, snap or test`);
  const command = name as keyof typeof commands;
  if (rest.includes('--help') || rest.includes('-h')) return print(helpTexts[command]);
  return commands[command].run(readArguments(command, rest));
}

function readArguments(command: keyof typeof commands, words: string[]): CommandArguments {
  const options = Object.fromEntries(commands[command].options.map((option) => [option, kinds[option]]));
  let parsed: { values: Record<string, unknown>; positionals: string[] };
  try {
    parsed = parseArgs({ args: words, options, allowPositionals: true });
  } catch (error) {
    throw wrongUsage(sentenceOf(error).split('. ')[0], command);
  }
  const {
    out,
    baseline,
    truth,
    areas,
    surroundings,
    route,
    table = 'long',
    times = 'relative',
    zone,
    threads,
    ndjson,
    figures,
    draft,
    overwrite,
    serve,
    fixes,
  } = parsed.values as { [key in keyof typeof kinds]?: string };
  if (out === '') throw wrongUsage('--out must not be empty', command);
  if (baseline === '') throw wrongUsage('--baseline must not be empty', command);
  if (truth === '') throw wrongUsage('--truth must not be empty', command);
  if (areas === '') throw wrongUsage('--areas must not be empty', command);
  if (surroundings === '') throw wrongUsage('--surroundings must not be empty', command);
  if (threads !== undefined && !/^[1-9]\d{0,3}$/.test(threads)) {
    throw wrongUsage(`--threads must be a whole number of 1 to 9999, not "${threads}"`, command);
  }
  if (times !== 'relative' && times !== 'absolute') {
    throw wrongUsage(`--times must be relative or absolute, not "${times}"`, command);
  }
  if (command === 'assess' && parsed.values.times !== undefined && !fixes) {
    throw wrongUsage('--times is for fixes.csv: it needs --fixes', command);
  }
  if (table !== 'long' && table !== 'wide') {
    throw wrongUsage(`--table must be long or wide, not "${table}"`, command);
  }
  return {
    ...pictureArguments(parsed.values, command),
    files: parsed.positionals,
    route,
    overwrite: overwrite ? 'allowed' : 'refused',
    serve: serve ? 'on this machine' : 'no',
    table,
    fixes: fixes ? 'written' : 'none',
    out,
    baseline,
    truth,
    areas,
    surroundings,
    zone,
    threads: threads === undefined ? undefined : Number(threads),
    times,
    draft: draft ? 'from recordings' : 'none',
    ndjson: ndjson ? 'each line' : 'off',
    figures: figures ? 'for combine' : 'all',
  };
}

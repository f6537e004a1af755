import { parseArgs } from 'node:util';
import { InputError } from '../model';
import { type PlannedTest, planTest, type TestPlan } from '../runs';
import { wrongUsage } from './CommandError';
import { sentenceOf } from './explain';
import { print } from './print';

/** What the command line calls the members of a plan, in the order of the help. */
const members = {
  sigma: 'sigma',
  'correlation-time': 'correlationTime',
  seconds: 'seconds',
  difference: 'difference',
  receivers: 'receivers',
  runs: 'runs',
  'between-runs': 'betweenRuns',
  'lever-arm': 'leverArm',
} as const satisfies Record<string, keyof TestPlan>;

/** `datumline plan`: what a test could find, before it is carried anywhere. */
export function planCommand(words: readonly string[]): void {
  const plan = readPlan(words);
  const { chance, runsNeeded, detectable, effectiveSamples } = planned(plan);
  const { receivers = 2, runs = 1, seconds, difference } = plan;
  const carried = `${receivers} receivers, ${runs} ${runs === 1 ? 'run' : 'runs'} of ${seconds} s`;
  const needed =
    runsNeeded === null
      ? 'not even 200 runs would find it four times in five'
      : `${runsNeeded} ${runsNeeded === 1 ? 'run finds' : 'runs find'} it four times in five`;
  const lines = [
    `A difference of ${difference} m in the mean distance is found with a chance of ${percent(chance)} (${carried}); ${needed}.`,
    detectable === null
      ? 'None, however great, is found four times in five like this: the stretch is too short, given how long errors last.'
      : `Found four times in five: ${detectable.toFixed(1)} m and more.`,
    `A run is worth ${effectiveSamples.toFixed(effectiveSamples < 10 ? 1 : 0)} independent samples. The chance is that of finding one receiver further off than another, corrected over all pairs.`,
  ];
  print(`${lines.join('\n')}\n`);
}

/** A number that no plan can have is wrong usage, named as the command line names it. */
function planned(plan: TestPlan): PlannedTest {
  try {
    return planTest(plan);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const option = Object.entries(members).find(([, member]) => error.argument === `plan.${member}`)?.[0];
    throw wrongUsage(error.message.replace(error.argument, `--${option}`), 'plan');
  }
}

function readPlan(words: readonly string[]): TestPlan {
  const options = Object.fromEntries(Object.keys(members).map((option) => [option, { type: 'string' as const }]));
  let values: Record<string, string | undefined>;
  try {
    values = parseArgs({ args: [...words], options, allowPositionals: false }).values;
  } catch (error) {
    throw wrongUsage(sentenceOf(error).split('. ')[0], 'plan');
  }
  const plan: Partial<Record<keyof TestPlan, number>> = {};
  for (const [option, member] of Object.entries(members)) {
    const value = values[option];
    if (value === undefined) continue;
    plan[member] = value.trim() === '' ? Number.NaN : Number(value);
    if (Number.isNaN(plan[member])) throw wrongUsage(`--${option} must be a number, not "${value}"`, 'plan');
  }
  for (const option of ['sigma', 'correlation-time', 'seconds', 'difference'] as const) {
    if (plan[members[option]] === undefined) throw wrongUsage(`--${option} is missing`, 'plan');
  }
  return plan as TestPlan;
}

const percent = (share: number) => `${Math.round(100 * share)} %`;

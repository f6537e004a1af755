import {
  checkArray,
  checkChoice,
  checkLooks,
  checkMembers,
  checkNumber,
  checkString,
  InputError,
  type MemberKeys,
} from '../model';
import type {
  TestFile,
  TestOptions,
  TestRecording,
  TestRun,
  TestSectionExclusion,
  TestStretchExclusion,
} from './TestFile';

type Check = (value: unknown, argument: string) => void;

/** What each member of an interface must be, and whether it must be there. */
type Members<T> = { readonly [K in keyof Required<T>]: readonly [presence: MemberKeys<T>[K], check: Check] };

const text: Check = (value, argument) => checkString(value, argument);
const name: Check = (value, argument) => checkString(value, argument, { min: 1 });
const size: Check = (value, argument) => checkNumber(value, argument, { min: 0 });
const positiveSize: Check = (value, argument) => checkNumber(value, argument, { above: 0 });

function object<T>(members: Members<T>): Check {
  const entries = Object.entries(members) as [keyof T & string, Members<T>[keyof T]][];
  const keys = Object.fromEntries(entries.map(([key, [presence]]) => [key, presence])) as unknown as MemberKeys<T>;
  return (value, argument) => {
    checkMembers<T>(value, keys, argument);
    for (const [key, [, check]] of entries) if (value[key] !== undefined) check(value[key], `${argument}.${key}`);
  };
}

function list(check: Check, min = 0): Check {
  return (value, argument) => {
    checkArray(value, argument);
    if (value.length < min) {
      throw new InputError({ reason: 'too-few', argument, rule: `an array of at least ${min}`, value });
    }
    for (let i = 0; i < value.length; i++) check(value[i], `${argument}[${i}]`);
  };
}

const stretch = object<TestStretchExclusion>({ from: ['must', size], to: ['must', size], reason: ['must', name] });
const section = object<TestSectionExclusion>({ section: ['must', name], reason: ['must', name] });
const exclusions = list((value, argument) => {
  const bySection = typeof value === 'object' && value !== null && Object.hasOwn(value, 'section');
  (bySection ? section : stretch)(value, argument);
});

const recording = object<TestRecording>({
  file: ['must', name],
  receiver: ['must', name],
  placement: ['may', name],
  track: ['may', name],
  zone: ['may', name],
  notes: ['may', text],
});

const run = object<TestRun>({
  name: ['must', name],
  date: ['may', name],
  recordings: ['must', list(recording, 1)],
  truth: ['may', name],
  exclusions: ['may', exclusions],
  notes: ['may', text],
});

const pace: Check = (value, argument) => checkChoice(value, argument, ['shared', 'apart']);

const options = object<TestOptions>({
  leverArm: ['may', size],
  equivalence: ['may', positiveSize],
  pace: ['may', pace],
  baseline: ['may', name],
});

const version: Check = (value, argument) => {
  if (value !== 1) throw new InputError({ reason: 'unreadable', argument, rule: '1', value });
};

const test = object<TestFile>({
  $schema: ['may', text],
  version: ['must', version],
  name: ['may', name],
  route: ['must', name],
  runs: ['must', list(run, 1)],
  decoy: ['may', name],
  centreline: ['may', name],
  areas: ['may', name],
  surroundings: ['may', name],
  exclusions: ['may', exclusions],
  options: ['may', options],
  looks: ['may', checkLooks],
  notes: ['may', text],
});

/**
 * Refuses what is no test file, naming the path of the first fault: `test.runs[0].recordings[2].receiver`. Whether the files
 * that it names are there is not looked at.
 *
 * @example
 * checkTestFile({ version: 1, route: 'route.json', runs: [{ name: 'one', recordings: [{ file: 'a.gpx', receiver: 'A' }] }] })
 * checkTestFile({ version: 1, route: 'route.json', runs: [] }) // throws too-few: test.runs must be an array of at least 1
 *
 * @throws {InputError} `unknown-key`, `missing`, `wrong-type`, `too-few`, `out-of-range`; `unreadable` for another version
 */
export function checkTestFile(document: unknown): asserts document is TestFile {
  test(document, 'test');
}

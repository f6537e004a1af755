import { checkArray, checkMembers, checkNumber, checkString, type MemberKeys, type Name } from '../model';

/** A recording that was found somewhere, and what of it tells its receiver and run. */
export interface FoundRecording {
  /** Where it lies: `run 2/alder.gpx`. */
  readonly file: Name;
  /** What it is called: mostly its file without the ending, or the track where the file has several. */
  readonly name: Name;
  /** Which track, where the file has several. */
  readonly track?: Name;
  /** First and last time, milliseconds since the Unix epoch; left out without times. */
  readonly span?: readonly [begin: number, end: number];
}

/** A recording with the receiver that it was guessed to be of. */
export interface GuessedRecording extends FoundRecording {
  readonly receiver: string;
}

/** A test as it was guessed. */
export interface GuessedTest {
  readonly runs: readonly { readonly name: string; readonly recordings: readonly GuessedRecording[] }[];
  /** Each guess as a sentence. */
  readonly sentences: readonly string[];
}

const keys: MemberKeys<FoundRecording> = { file: 'must', name: 'must', track: 'may', span: 'may' };

/** Parts of a name that tell when or which time, and not what recorded: dates, times, numbers, `run 2`, `lap3`, `day-1`. */
const WHEN = /^(?:\d+|\d{4}-\d\d-\d\d.*|\d{8}t\d{4,6}z?|(?:run|lap|day|test|track|ride|walk|trip|r|no)\d*)$/i;

/**
 * The test that recordings are likely of: receivers by what their names have beside numbers, dates and words such as `run`;
 * runs by the times, those that overlap being one, and without times by folders, or by the numbers in the names. A guess, each
 * said in a sentence: show it to whoever knows.
 *
 * @example
 * const found = ['alder 1.gpx', 'birch 1.gpx', 'alder 2.gpx'].map((file) => ({ file, name: file.slice(0, -4) }));
 * const { runs } = guessTest(found);
 * runs.map(({ name }) => name) // → ['run 1', 'run 2']
 * runs[0].recordings.map(({ receiver }) => receiver) // → ['alder', 'birch']
 *
 * @throws {InputError} `wrong-type` for what is no list of found recordings; `not-finite` for a time that is none
 * @remarks Takes time with the square of the recordings, at most: of a hundred well under a millisecond each.
 */
export function guessTest(found: readonly FoundRecording[]): GuessedTest {
  checkArray(found, 'found');
  found.forEach((recording, i) => {
    checkFound(recording, `found[${i}]`);
  });
  const sentences: string[] = [];
  const parts = found.map(({ name }) => name.split(/[\s_.–-]+/).filter((part) => part !== ''));
  const telling = parts.map((own) => own.filter((part) => !WHEN.test(part)));
  const shared = (part: string) => telling.length > 1 && telling.every((own) => own.some((one) => same(one, part)));
  const apart = telling.map((own) => own.filter((part) => !shared(part)));
  // what all have in common is no receiver, unless some have nothing else
  const words = apart.some((own) => own.length === 0) ? telling : apart;
  const recordings = found.map((recording, i): GuessedRecording => {
    return { ...recording, receiver: words[i].join(' ') || recording.name };
  });
  const runs = runsOf(recordings);
  const named = runs.map(({ members, why }, i) => {
    const [folder, ...others] = new Set(members.map(folderOf));
    const alone =
      others.length === 0 &&
      folder !== '' &&
      runs.filter((run) => run.members.some((member) => folderOf(member) === folder)).length === 1;
    const name = alone ? folder : `run ${i + 1}`;
    const twice = members.filter(({ receiver }, k) => members.findIndex((one) => one.receiver === receiver) !== k);
    for (const { receiver } of twice) {
      sentences.push(
        `“${receiver}” stands in “${name}” more than once: say which is which, with "receiver" or "placement".`,
      );
    }
    sentences.push(
      `“${name}”: ${members.map(({ file, track }) => (track === undefined ? file : `${file} (${track})`)).join(', ')}, ${why}.`,
    );
    return { name, recordings: members };
  });
  for (const receiver of new Set(recordings.map((one) => one.receiver))) {
    const names = recordings.filter((one) => one.receiver === receiver).map(({ name }) => `“${name}”`);
    sentences.push(`Receiver “${receiver}”, by the ${names.length === 1 ? 'name' : 'names'} ${names.join(', ')}.`);
  }
  return { runs: named, sentences };
}

interface Run {
  readonly members: readonly GuessedRecording[];
  readonly why: string;
}

function runsOf(recordings: readonly GuessedRecording[]): Run[] {
  const timed = recordings.filter(({ span }) => span !== undefined).sort((a, b) => a.span![0] - b.span![0]);
  const runs: { members: GuessedRecording[]; why: string; end: number }[] = [];
  for (const recording of timed) {
    const [begin, end] = recording.span!;
    const last = runs.at(-1);
    if (last && begin <= last.end) {
      last.members.push(recording);
      last.end = Math.max(last.end, end);
      last.why = 'recorded at the same time';
    } else runs.push({ members: [recording], why: 'recorded at a time of its own', end });
  }
  const groups = new Map<string, GuessedRecording[]>();
  for (const recording of recordings.filter(({ span }) => span === undefined)) {
    const key = folderOf(recording) || (recording.name.match(/\d+/g)?.join('.') ?? '');
    groups.set(key, [...(groups.get(key) ?? []), recording]);
  }
  const untimed = [...groups].map(([key, members]): Run => {
    const why =
      folderOf(members[0]) === ''
        ? key === ''
          ? 'for want of times and numbers'
          : 'by the number in the name, for want of times'
        : 'by the folder, for want of times';
    return { members, why };
  });
  return [...runs, ...untimed];
}

const same = (a: string, b: string) => a.toLowerCase() === b.toLowerCase();

const folderOf = ({ file }: FoundRecording) => file.slice(0, Math.max(0, file.lastIndexOf('/')));

function checkFound(recording: unknown, argument: string): void {
  checkMembers<FoundRecording>(recording, keys, argument);
  for (const key of ['file', 'name'] as const) checkString(recording[key], `${argument}.${key}`, { min: 1 });
  if (recording.track !== undefined) checkString(recording.track, `${argument}.track`, { min: 1 });
  if (recording.span === undefined) return;
  checkArray(recording.span, `${argument}.span`);
  for (const i of [0, 1]) checkNumber(recording.span[i], `${argument}.span[${i}]`);
}

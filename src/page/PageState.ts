import { batch, computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { guessTest, type Recording, type Route, type TestFile } from 'datumline';
import type { GeoJSON } from 'geojson';
import { Kept, type Loss } from './Kept';
import { type LineStore, makeLineStore } from './line';
import type { Entry } from './recordings/Entry';
import { planOf } from './report/planOf';
import type { Stated } from './Stated';
import { spanOf } from './spanOf';
import { Helper } from './work/Helper';
import type { CompanionKey, Extent, FileContent, Fit, GivenFile, LentPlan, Plan, Progress } from './work/Task';

/** What the report pane shows. */
export type ReportState =
  | { readonly kind: 'none' }
  | ({ readonly kind: 'busy' } & Progress)
  | { readonly kind: 'failed'; readonly sentence: string }
  | { readonly kind: 'made'; readonly html: string; readonly of: unknown };

/** Of work that was just asked for. */
const BEGINNING: Progress = { sentence: 'Beginning', share: 0 };

/** Milliseconds that nothing changes before it is judged ahead: what is drawn or dropped has rested while it was placed. */
const REST = 100;

/** Fixes up to which it is: of larger tests a few seconds of waiting are better than a fan that runs unasked. */
const AHEAD = 100_000;

/** Everything that the page is about, and what can be done to it. */
export class PageState {
  #shown: readonly Recording[] = [];
  /** A number for what must be told from all else of its kind. */
  #next = 1;
  readonly #drawer = new Helper();
  readonly line: LineStore = makeLineStore({
    open: (text, name) => this.#drawer.ask('open', { text, name }),
    layOut: async (drawing) => {
      const laid = await this.#drawer.ask('layOut', drawing);
      return { ...laid, drawing, route: { ...laid.route, recipe: drawing } };
    },
    draft: (recordings) => this.#drawer.ask('draft', recordings),
    remake: (drawing, remaking) => this.#drawer.ask('remake', { drawing, remaking }),
  });
  readonly entries: Signal<readonly Entry[]> = signal([]);
  readonly stated: Signal<Stated> = signal({ test: {}, runs: [] });
  readonly companions: Signal<{ readonly [key in CompanionKey]?: GivenFile }> = signal({});
  /** Recordings of the true place, by the name of their run. */
  readonly truths: Signal<{ readonly [run: string]: { recording: Recording; given: GivenFile } }> = signal({});
  readonly surroundings: Signal<GeoJSON | null> = signal(null);
  /** How each recording lies on the line; of an earlier line until the next is found. */
  readonly fits: Signal<ReadonlyMap<Recording, Fit & { readonly route: Route }>> = signal(new Map());
  readonly report: Signal<ReportState> = signal({ kind: 'none' });
  readonly saving: Signal<Progress | null> = signal(null);
  readonly reading: Signal<number> = signal(0);
  /** The last sentence said. */
  readonly said: Signal<string> = signal('');
  /** What is not kept in this browser; null while all is well. */
  readonly notKept: Signal<Loss | null> = signal(null);

  /** Whether another window with this page writes to the same store. */
  readonly windows: Signal<'one' | 'several'> = signal('one');

  /** What the map shows faintly. */
  readonly recordings: ReadonlySignal<readonly Recording[]> = computed(() => {
    const there = this.entries.value.flatMap(({ recording }) => recording ?? []);
    // of what is only named anew nothing is drawn anew
    const isSame = there.length === this.#shown.length && there.every((one, i) => one === this.#shown[i]);
    if (!isSame) this.#shown = there;
    return this.#shown;
  });
  /** What a report is made of, or the sentence of what is missing. */
  readonly plan = computed(() =>
    planOf({
      number: this.#next++,
      ...{ route: this.line.route.value, fault: this.line.fault.value, entries: this.entries.value },
      ...{ stated: this.stated.value, companions: this.companions.value, truths: this.truths.value },
      surroundings: this.surroundings.value,
    }),
  );

  readonly #reader = new Helper();
  readonly #judge = new Helper();
  readonly #kept = new Kept(
    (loss) => {
      this.notKept.value = loss;
    },
    () => {
      this.windows.value = 'several';
    },
  );
  #fitting: Route | null = null;
  /** What was judged ahead last. */
  #ahead: Plan | null = null;

  /** Brings back what was open, then keeps what is. */
  async begin(): Promise<void> {
    const kept = await this.#kept.read();
    if (kept) {
      batch(() => {
        this.line.restore(kept.line);
        this.stated.value = kept.stated;
        this.surroundings.value = kept.surroundings;
        this.companions.value = kept.companions;
        this.entries.value = kept.entries.map((entry) => ({
          ...entry,
          ...(entry.file === null && entry.fault === null
            ? { fault: 'This browser no longer has it: open it again.' }
            : {}),
          ...{ id: this.#next++, recording: null },
        }));
      });
      await this.#readAgain(this.entries.value);
      for (const [run, given] of Object.entries(kept.truths)) await this.#openTruth(run, given);
    }
    effect(() => {
      this.#kept.write({
        ...{ line: this.line.saved(), stated: this.stated.value, companions: this.companions.value },
        surroundings: this.surroundings.value,
        truths: Object.fromEntries(Object.entries(this.truths.value).map(([run, { given }]) => [run, given])),
        entries: this.entries.value.map(({ id: _, recording: _r, ...entry }) => entry),
      });
    });
    // whoever leaves may not come back; what the browser refuses to keep, and is nowhere else, is not left without a word
    addEventListener('pagehide', () => this.#kept.leave());
    addEventListener('beforeunload', (event) => {
      const isEmpty = this.entries.value.length === 0 && this.line.drawing.value.steps.length === 0;
      if (this.notKept.value?.of === 'everything' && !isEmpty) event.preventDefault();
    });
    effect(() => {
      const open = [this.line.route.value, this.surroundings.value, ...this.recordings.value];
      this.#judge.keep(new Set(open.filter((one) => one !== null)));
    });
    effect(() => {
      const route = this.line.route.value;
      if (route !== null && this.recordings.value.length > 0) void this.#fit(route);
    });
    effect(() => {
      const plan = this.plan.value;
      const whole = this.recordings.value.every((one) => this.fits.value.get(one)?.route === this.line.route.value);
      if (typeof plan !== 'string' && whole && this.reading.value === 0) void this.#judgeAhead(plan);
    });
  }

  say = (sentence: string): void => {
    // the same sentence twice is to be heard twice
    this.said.value = this.said.value === sentence ? `${sentence}\u00a0` : sentence;
  };

  /** Opens files, whatever they are, and says what was made of them. */
  async open(given: readonly GivenFile[]): Promise<void> {
    this.reading.value += given.length;
    const opened: { given: GivenFile; content: FileContent }[] = [];
    const queue = [...given];
    while (queue.length > 0) {
      const next = queue.shift()!;
      const content = await this.#ask(next);
      if (content.kind === 'archive') {
        this.reading.value += content.files.length;
        queue.unshift(...content.files);
      } else opened.push({ given: next, content });
      this.reading.value--;
    }
    const tests = opened.flatMap(({ given: { path }, content }) =>
      content.kind === 'test' ? [{ path, test: content.test }] : [],
    );
    // what a report of ours was made with, dropped as a folder or an archive, comes with what was made of it
    if (tests.length > 1) this.say('More than one test file: only the first was opened.');
    const sentences = tests.length > 0 ? await this.#openTest(tests[0], opened) : await this.#openLoose(opened);
    if (sentences.length > 0) this.say(sentences.join(' '));
  }

  /** Lays a file of surroundings under the map; the error has its sentence. */
  async openSurroundings(given: GivenFile): Promise<void> {
    this.surroundings.value = await this.#reader.ask('surroundings', given);
  }

  change(id: number, told: Partial<Pick<Entry, 'receiver' | 'placement' | 'run'>>): void {
    this.entries.value = this.entries.value.map((entry) =>
      entry.id === id ? { ...entry, ...told, by: 'hand' as const } : entry,
    );
  }

  /** Reads again, with a zone, what asks for one. */
  async setZone(zone: string): Promise<void> {
    const asking = this.entries.value.filter(({ asks }) => asks === 'zone');
    this.reading.value += asking.length;
    const read: Entry[] = [];
    for (const entry of asking) {
      const given = { path: entry.path, file: entry.file! };
      const content = await this.#ask({ ...given, zone });
      read.push(...this.#entriesOf(given, content, zone, entry));
      this.reading.value--;
    }
    const others = this.entries.value.filter((entry) => !asking.includes(entry));
    this.entries.value = guessed([...others, ...read]);
    const failed = read.filter(({ asks }) => asks === 'zone');
    this.say(
      failed.length > 0 ? `“${zone}” is no zone that times can be in.` : `${count(read.length, 'recording')} read.`,
    );
  }

  remove(id: number): void {
    const gone = this.entries.value.find((entry) => entry.id === id);
    this.entries.value = this.entries.value.filter((entry) => entry !== gone);
    if (gone) this.say(`${gone.path} is out of the test.`);
  }

  rename = (name: string): void => {
    const { test, runs } = this.stated.value;
    this.stated.value = { test: { ...test, name: name === '' ? undefined : name }, runs };
  };

  async makeReport(): Promise<void> {
    const plan = this.plan.value;
    if (typeof plan === 'string') return this.say(plan);
    this.report.value = { kind: 'busy', ...BEGINNING };
    try {
      const { html } = await this.#judge.ask('judge', this.#lentPlan(plan), (progress) => {
        this.report.value = { kind: 'busy', ...progress };
      });
      this.report.value = { kind: 'made', html, of: plan };
      this.say('The report is made.');
    } catch (error) {
      const { message } = error as Error;
      this.report.value = message === 'stopped' ? { kind: 'none' } : { kind: 'failed', sentence: message };
      this.say(message === 'stopped' ? 'Stopped; no report was made.' : 'No report could be made.');
    }
  }

  /** The archive to be saved; null where there is none, which is said. */
  async save(extent: Extent): Promise<Blob | null> {
    const plan = this.plan.value;
    if (typeof plan === 'string') {
      this.say(plan);
      return null;
    }
    this.saving.value = BEGINNING;
    try {
      const { zip, sentence } = await this.#judge.ask('save', { plan: this.#lentPlan(plan), extent }, (progress) => {
        this.saving.value = progress;
      });
      this.say(sentence);
      return zip;
    } catch (error) {
      this.say(`Nothing was saved: ${(error as Error).message}`);
      return null;
    } finally {
      this.saving.value = null;
    }
  }

  /** Ends what the worker is at. */
  stop(): void {
    this.#judge.stop();
  }

  /** Back to an empty page, with nothing left in the browser. */
  async forget(): Promise<void> {
    this.#reader.stop();
    this.#judge.stop();
    this.#ahead = null;
    batch(() => {
      this.line.clear();
      this.entries.value = [];
      this.fits.value = new Map();
      this.stated.value = { test: {}, runs: [] };
      this.companions.value = {};
      this.truths.value = {};
      this.surroundings.value = null;
      this.report.value = { kind: 'none' };
    });
    const done = await this.#kept.forget();
    this.say(done ? 'Everything is forgotten.' : 'The page is empty, but the browser would not delete what it kept.');
  }

  async #ask(given: GivenFile & { readonly zone?: string }): Promise<FileContent> {
    try {
      return await this.#reader.ask('read', given);
    } catch (error) {
      return { kind: 'fault', sentence: (error as Error).message, asks: 'nothing' };
    }
  }

  #entriesOf(given: GivenFile, content: FileContent, zone?: string, told?: Partial<Entry>): Entry[] {
    const bare = {
      ...{ path: given.path, file: given.file, receiver: '', placement: '', run: '', by: 'guess' as const },
      ...{ recording: null, fault: null, asks: 'nothing' as const },
      ...told,
    };
    if (content.kind === 'fault') {
      return [{ ...bare, id: this.#next++, fault: content.sentence, asks: content.asks, recording: null }];
    }
    if (content.kind !== 'recordings') {
      const fault = `It is ${kindWords[content.kind]}, no recording.`;
      return [{ ...bare, id: this.#next++, fault, recording: null }];
    }
    const { recordings } = content;
    const several = recordings.length > 1;
    const wanted = told?.track === undefined ? recordings : recordings.filter(({ name }) => name === told.track);
    if (wanted.length === 0) return [{ ...bare, id: this.#next++, fault: `It has no track “${told!.track}”.` }];
    return wanted.map((recording) => ({
      ...bare,
      ...{ id: this.#next++, recording, fault: null, asks: 'nothing' as const },
      ...(several ? { track: recording.name } : {}),
      ...(content.zone === 'given' ? { zone } : {}),
    }));
  }

  async #openLoose(opened: readonly { given: GivenFile; content: FileContent }[]): Promise<string[]> {
    const sentences: string[] = [];
    const added: Entry[] = [];
    for (const { given, content } of opened) {
      const { path } = given;
      if (content.kind === 'line') sentences.push(await this.#openLine(content.text, path));
      else if (content.kind === 'surroundings') {
        await this.openSurroundings(given);
        sentences.push(`${path} is drawn under the map.`);
      } else if (content.kind === 'areas') {
        this.companions.value = { ...this.companions.value, areas: given };
        sentences.push(`${path}: areas that the recordings are judged by.`);
      } else added.push(...this.#entriesOf(given, content));
    }
    // twice the same would count as two receivers, or as two runs, that agree to the last digit
    let there = this.entries.value;
    for (const entry of added.splice(0)) {
      const same = [...there, ...added].find((one) => isSame(one.recording, entry.recording));
      if (same) {
        sentences.push(`${entry.path} is not added: it is the same recording as ${same.path}.`);
        continue;
      }
      // what could not be read, in its place
      there = there.filter(({ path, fault }) => fault === null || path !== entry.path);
      added.push(entry);
    }
    if (added.length > 0) this.entries.value = guessed([...there, ...added]);
    const read = added.filter(({ recording }) => recording).length;
    if (read > 0)
      sentences.push(`${count(read, 'recording')} read; receivers and runs are guessed: look them through.`);
    if (read < added.length) sentences.push(`${added.length - read} could not be read; the table says why.`);
    return sentences;
  }

  async #openLine(text: string, path: string): Promise<string> {
    try {
      await this.line.open(text, path);
      return `The line is that of ${path}.`;
    } catch (error) {
      return `${path} could not be opened as the line: ${(error as Error).message}.`;
    }
  }

  async #openTest(
    { path, test }: { path: string; test: TestFile },
    opened: readonly { given: GivenFile; content: FileContent }[],
  ): Promise<string[]> {
    const folder = path.slice(0, path.lastIndexOf('/') + 1);
    const find = (name: string) => fileNamed(opened, folder, name);
    const sentences = [`The test ${test.name === undefined ? path : `“${test.name}”`} is open.`];
    const missing: string[] = [];
    const beside = (name: string | undefined) => {
      if (name === undefined) return undefined;
      const found = find(name);
      if (found === undefined) missing.push(name);
      return found;
    };
    const route = beside(test.route);
    if (route) sentences.push(await this.#openLine(await route.given.file.text(), route.given.path));
    const companions = Object.fromEntries(
      (['decoy', 'centreline', 'areas'] as const).flatMap((key) => {
        const found = beside(test[key]);
        return found ? [[key, found.given]] : [];
      }),
    );
    const surroundings = beside(test.surroundings);
    const entries: Entry[] = [];
    for (const run of test.runs) {
      for (const { file, receiver, placement = '', track, zone, notes } of run.recordings) {
        const told = { path: file, receiver, placement, run: run.name, by: 'hand' as const, track, notes, zone };
        const found = beside(file);
        if (found === undefined) {
          const fault = 'The test names it, but it was not among the files: drop all of them at once.';
          entries.push({
            ...this.#entriesOf({ path: file, file: new Blob() }, noContent, zone, told)[0],
            fault,
            file: null,
          });
          continue;
        }
        const content = zone === undefined ? found.content : await this.#ask({ ...found.given, zone });
        entries.push(...this.#entriesOf(found.given, content, zone, told));
      }
    }
    const { name, options, looks, exclusions, notes } = test;
    const under =
      surroundings?.content.kind === 'surroundings' ? await this.#reader.ask('surroundings', surroundings.given) : null;
    batch(() => {
      this.stated.value = {
        test: { name, options, looks, exclusions, notes },
        runs: test.runs.map(({ recordings: _, ...run }) => run),
      };
      this.companions.value = companions;
      this.truths.value = {};
      this.surroundings.value = under;
      this.entries.value = entries;
    });
    for (const run of test.runs) {
      const truth = beside(run.truth);
      if (truth) await this.#openTruth(run.name, truth.given);
    }
    const read = entries.filter(({ recording }) => recording).length;
    sentences.push(`${read} of ${count(entries.length, 'recording')} read.`);
    if (missing.length > 0) sentences.push(`Not among the files: ${[...new Set(missing)].join(', ')}.`);
    return sentences;
  }

  async #openTruth(run: string, given: GivenFile): Promise<void> {
    const content = await this.#ask(given);
    if (content.kind !== 'recordings' || content.recordings.length !== 1) {
      this.say(`${given.path}: no recording of the true place could be read from it.`);
      return;
    }
    this.truths.value = { ...this.truths.value, [run]: { recording: content.recordings[0], given } };
  }

  async #readAgain(entries: readonly Entry[]): Promise<void> {
    this.reading.value += entries.length;
    for (const entry of entries) {
      this.reading.value--;
      if (entry.file === null || entry.fault !== null) continue;
      const given = { path: entry.path, file: entry.file };
      const content = await this.#ask({ ...given, ...(entry.zone === undefined ? {} : { zone: entry.zone }) });
      const [read] = this.#entriesOf(given, content, entry.zone, entry);
      this.entries.value = this.entries.value.map((one) => (one.id === entry.id ? { ...read, id: entry.id } : one));
    }
  }

  #lentPlan({ route, runs, surroundings, ...rest }: Plan): LentPlan {
    const lend = this.#judge.lend.bind(this.#judge);
    return {
      ...{ ...rest, route: lend(route), surroundings: surroundings && lend(surroundings) },
      runs: runs.map(({ recordings, ...run }) => ({
        ...run,
        recordings: recordings.map((one) => ({ ...one, recording: lend(one.recording) })),
      })),
    };
  }

  /** Has judged what will probably be asked for. */
  async #judgeAhead(plan: Plan): Promise<void> {
    await new Promise((resolve) => setTimeout(resolve, REST));
    if (plan !== this.plan.value || plan === this.#ahead) return;
    const fixes = this.recordings.value.reduce((sum, { lon }) => sum + lon.length, 0);
    if (fixes > AHEAD || this.report.value.kind === 'busy' || this.saving.value !== null) return;
    this.#ahead = plan;
    // whoever asks for the report is told what went wrong
    await this.#judge.ask('judgeAhead', this.#lentPlan(plan)).catch(() => {});
  }

  /** Finds out, one after the other, how much of the line each recording covers. */
  async #fit(route: Route): Promise<void> {
    if (this.#fitting === route) return;
    this.#fitting = route;
    // the line may be in the middle of being drawn
    await new Promise((resolve) => setTimeout(resolve, 300));
    while (this.#fitting === route) {
      const recording = this.recordings.value.find((one) => this.fits.value.get(one)?.route !== route);
      if (!recording) break;
      // where it is judged after that: a worker that has done the like before is twice as quick
      const found = await this.#judge
        .ask('fit', { route: this.#judge.lend(route), recording: this.#judge.lend(recording) })
        .catch(({ message }: Error) => message);
      if (this.#fitting !== route) return;
      if (found === 'stopped') continue;
      if (typeof found === 'string') break;
      this.fits.value = new Map([...this.fits.value, [recording, { ...found, route }]]);
    }
    this.#fitting = null;
  }
}

/** Whether two recordings are of the same fixes, whatever they are called. */
function isSame(one: Recording | null, other: Recording | null): boolean {
  if (one === null || other === null || one.lon.length !== other.lon.length) return false;
  return (['lon', 'lat', 'time'] as const).every((key) => {
    const [column, second] = [one[key], other[key]];
    return column === undefined || second === undefined
      ? column === second
      : column.every((value, i) => Object.is(value, second[i]));
  });
}

const noContent: FileContent = { kind: 'fault', sentence: '', asks: 'nothing' };

const kindWords = {
  line: 'a line',
  test: 'a test file',
  areas: 'a file of areas',
  surroundings: 'a file of surroundings',
  archive: 'an archive',
} as const;

/** The file that a test names: of the same path, else of the same name where only one has it. */
function fileNamed<T extends { readonly given: GivenFile }>(
  opened: readonly T[],
  folder: string,
  name: string,
): T | undefined {
  const plain = (path: string) => path.replace(/^\.\//, '');
  const exact = opened.find(({ given }) => given.path === folder + plain(name));
  if (exact) return exact;
  const base = name.replace(/^.*\//, '');
  const alike = opened.filter(({ given }) => given.path.replace(/^.*\//, '') === base);
  return alike.length === 1 ? alike[0] : undefined;
}

/** Receivers and runs guessed anew where nobody has said them. */
function guessed(entries: readonly Entry[]): Entry[] {
  const open = entries.filter(({ recording, by }) => recording !== null && by === 'guess');
  const { runs } = guessTest(
    open.map(({ id, path, track, recording }) => ({
      file: path,
      name: recording!.name,
      // by which each is found again
      track: `${track ?? ''}#${id}`,
      ...(spanOf(recording!) ? { span: spanOf(recording!) } : {}),
    })),
  );
  const told = new Map<number, { receiver: string; run: string }>();
  for (const { name: run, recordings } of runs) {
    for (const { track, receiver } of recordings) told.set(Number(track!.split('#').at(-1)), { receiver, run });
  }
  return entries.map((entry) => ({ ...entry, ...told.get(entry.id) }));
}

const count = (n: number, noun: string) => `${n} ${noun}${n === 1 ? '' : 's'}`;

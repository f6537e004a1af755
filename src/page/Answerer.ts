import { draftRoute, type Recording, type Route, type Snapped } from 'datumline';
import type { Feature } from 'geojson';
import { NOTHING } from './line/Drawing';
import { layOut } from './line/layOut';
import { readDocument } from './line/readDocument';
import { remakeLine } from './line/remakeLine';
import { fitOf } from './work/fitOf';
import { type Judged, judgePlan } from './work/judgePlan';
import { readGiven } from './work/readGiven';
import { readSurroundings } from './work/readSurroundings';
import { savePlan } from './work/savePlan';
import type { Lent, LentPlan, Plan, Progress, Question, Reply, Tasks } from './work/Task';

type Tell = (progress: Progress) => void;
type HandOver = (features: readonly Feature[]) => void;

/** What is judged, or being judged, of a plan. */
interface Judging {
  /** Of the plan. */
  readonly number: number;
  readonly judged: Promise<Judged>;
  readonly left: AbortController;
  is: 'begun' | 'made';
}

/** Share of the work by which it must have come further to be told again. */
const TOLD = 0.01;

/** The worker's side: does what the page asks, one question after the other. */
export class Answerer {
  readonly #reply: (reply: Reply) => void;
  /** What was judged last, or is being judged, by the number of its plan: what is saved is mostly what is shown. */
  #last: Judging | undefined;
  /** What the page has lent. */
  readonly #lent = new Map<number, object>();
  /** Where recordings were placed, and on which route. */
  readonly #placed = new WeakMap<Recording, { readonly route: Route; readonly snapped: Snapped | undefined }>();
  /** Whoever asked last hears how far the judging is. */
  #tell: Tell = () => {};

  constructor(reply: (reply: Reply) => void) {
    this.#reply = reply;
  }

  async answer({ number, task, input }: Question): Promise<void> {
    let told: Progress = { sentence: '', share: 0 };
    const tell: Tell = (progress) => {
      if (progress.sentence === told.sentence && progress.share < told.share + TOLD) return;
      told = { ...progress, share: Math.max(told.share, progress.share) };
      this.#reply({ number, progress: told });
    };
    try {
      const handOver: HandOver = (features) => this.#reply({ number, features });
      const work = this.#tasks[task] as (input: unknown, tell: Tell, handOver: HandOver) => unknown;
      const done = await work(input, tell, handOver);
      this.#reply({ number, answer: done });
    } catch (error) {
      this.#reply({ number, fault: error instanceof Error ? error.message : String(error) });
    }
  }

  readonly #tasks: {
    readonly [Name in keyof Tasks]: (
      input: Tasks[Name]['input'],
      tell: Tell,
      handOver: HandOver,
    ) => Tasks[Name]['answer'] | Promise<Tasks[Name]['answer']>;
  } = {
    read: readGiven,
    fit: (lent) => {
      const [route, recording] = [this.#taken(lent.route), this.#taken(lent.recording)];
      const { snapped, ...fit } = fitOf(route, recording);
      this.#placed.set(recording, { route, snapped });
      return fit;
    },
    giveBack: (keys) => {
      for (const key of keys) this.#lent.delete(key);
    },
    surroundings: (given, _, handOver) => readSurroundings(given, handOver),
    open: ({ text, name }) => readDocument(text, name),
    layOut: (drawing) => {
      const laid = layOut(drawing);
      // whoever asked has it
      return { ...laid, drawing: NOTHING, route: { ...laid.route, recipe: NOTHING } };
    },
    draft: (recordings) => draftRoute(recordings).recipe,
    remake: ({ drawing, remaking }) => remakeLine(drawing, remaking),
    judgeAhead: async (plan, tell) => {
      await this.#judged(this.#planOf(plan), tell);
    },
    judge: async (plan, tell) => ({ html: (await this.#judged(this.#planOf(plan), tell)).report }),
    save: async ({ plan: lent, extent }, tell) => {
      const plan = this.#planOf(lent);
      // what is cut is judged once more
      const isMade = this.#last?.number === plan.number && this.#last.is === 'made';
      const parts = (isMade ? 0 : 1) + (extent === 'cut' ? 1 : 0);
      const part = (done: number): Tell => {
        return ({ sentence, share }) => tell({ sentence, share: (done + share) / Math.max(1, parts) });
      };
      const judged = await this.#judged(plan, part(0));
      return savePlan(plan, judged, extent, part(extent === 'cut' ? parts - 1 : 0));
    },
  };

  /** What was lent, kept for the next time. */
  #taken<T extends object>({ key, value }: Lent<T>): T {
    if (value !== undefined) this.#lent.set(key, value);
    return this.#lent.get(key) as T;
  }

  #planOf({ route, runs, surroundings, ...rest }: LentPlan): Plan {
    return {
      ...{ ...rest, route: this.#taken(route), surroundings: surroundings && this.#taken(surroundings) },
      runs: runs.map(({ recordings, ...run }) => ({
        ...run,
        recordings: recordings.map((one) => ({ ...one, recording: this.#taken(one.recording) })),
      })),
    };
  }

  #judged(plan: Plan, tell: Tell): Promise<Judged> {
    const { number } = plan;
    this.#tell = tell;
    if (this.#last?.number !== number) {
      // nobody asks for that one any more
      this.#last?.left.abort(new Error('left for another'));
      const left = new AbortController();
      const placedOf = (recording: Recording) => {
        const placed = this.#placed.get(recording);
        return placed?.route === plan.route ? placed.snapped : undefined;
      };
      const judged = judgePlan(plan, (progress) => this.#tell(progress), left.signal, placedOf);
      const last: Judging = { number, judged, left, is: 'begun' };
      this.#last = last;
      judged.then(
        () => {
          last.is = 'made';
        },
        // whoever asked is told
        () => {},
      );
    }
    return this.#last.judged;
  }
}

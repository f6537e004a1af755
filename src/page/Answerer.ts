import { draftRoute } from 'datumline';
import { layOut } from './line/layOut';
import { fitOf } from './work/fitOf';
import { type Judged, judgePlan } from './work/judgePlan';
import { readGiven } from './work/readGiven';
import { savePlan } from './work/savePlan';
import type { Plan, Question, Reply, Tasks } from './work/Task';

type Progress = (sentence: string) => Promise<void>;

/** The worker's side: does what the page asks, one question after the other. */
export class Answerer {
  readonly #reply: (reply: Reply) => void;
  /** What was judged last, by the number of its plan: what is saved is mostly what is shown. */
  #last: { readonly number: number; readonly judged: Judged } | undefined;

  constructor(reply: (reply: Reply) => void) {
    this.#reply = reply;
  }

  async answer({ number, task, input }: Question): Promise<void> {
    const progress = async (sentence: string) => {
      this.#reply({ number, progress: sentence });
      // so that it is on its way before the next piece of work begins
      await new Promise((resolve) => setTimeout(resolve));
    };
    try {
      const done = await (this.#tasks[task] as (input: unknown, progress: Progress) => unknown)(input, progress);
      this.#reply({ number, answer: done });
    } catch (error) {
      this.#reply({ number, fault: error instanceof Error ? error.message : String(error) });
    }
  }

  readonly #tasks: {
    readonly [Name in keyof Tasks]: (
      input: Tasks[Name]['input'],
      progress: Progress,
    ) => Tasks[Name]['answer'] | Promise<Tasks[Name]['answer']>;
  } = {
    read: readGiven,
    fit: ({ route, recording }) => fitOf(route, recording),
    layOut,
    draft: (recordings) => draftRoute(recordings).recipe,
    judge: async (plan, progress) => ({ html: (await this.#judged(plan, progress)).report }),
    save: async ({ plan, extent }, progress) => savePlan(plan, await this.#judged(plan, progress), extent, progress),
  };

  async #judged(plan: Plan, progress: Progress): Promise<Judged> {
    const { number } = plan;
    if (this.#last?.number !== number) this.#last = { number, judged: await judgePlan(plan, progress) };
    return this.#last.judged;
  }
}

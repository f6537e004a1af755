import { draftRoute } from 'datumline';
import { layOut } from './line/layOut';
import { fitOf } from './work/fitOf';
import { judgePlan } from './work/judgePlan';
import { readGiven } from './work/readGiven';
import { savePlan } from './work/savePlan';
import type { Question, Reply, Tasks } from './work/Task';

type Progress = (sentence: string) => Promise<void>;

const tasks: {
  readonly [Name in keyof Tasks]: (
    input: Tasks[Name]['input'],
    progress: Progress,
  ) => Tasks[Name]['answer'] | Promise<Tasks[Name]['answer']>;
} = {
  read: readGiven,
  fit: ({ route, recording }) => fitOf(route, recording),
  layOut,
  draft: (recordings) => draftRoute(recordings).recipe,
  judge: async (plan, progress) => ({ html: (await judgePlan(plan, progress)).report }),
  save: ({ plan, extent }, progress) => savePlan(plan, extent, progress),
};

const page = self as unknown as { postMessage(reply: Reply): void };

/** Answers what the page asks its worker. */
export async function answerQuestion({ number, task, input }: Question): Promise<void> {
  const progress = async (sentence: string) => {
    page.postMessage({ number, progress: sentence });
    // so that it is on its way before the next piece of work begins
    await new Promise((resolve) => setTimeout(resolve));
  };
  try {
    const answer = await (tasks[task] as (input: unknown, progress: Progress) => unknown)(input, progress);
    page.postMessage({ number, answer });
  } catch (error) {
    page.postMessage({ number, fault: error instanceof Error ? error.message : String(error) });
  }
}

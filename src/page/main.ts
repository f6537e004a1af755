import type { Question, Reply } from './work/Task';

// One script for both sides: where there is no document, it is the worker that the page started from its own text. Each side's
// part runs where it is wanted only.
if (typeof document === 'undefined') {
  const page = self as unknown as { postMessage(reply: Reply): void };
  const answerer = import('./Answerer').then(({ Answerer }) => new Answerer((reply) => page.postMessage(reply)));
  // heard from the first moment, as what comes before anyone listens is lost
  self.addEventListener('message', async ({ data }: MessageEvent<Question>) => (await answerer).answer(data));
} else void import('./start');

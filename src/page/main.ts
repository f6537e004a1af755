import type { Question } from './work/Task';

// One script for both sides: where there is no document, it is the worker that the page started from its own text. Each side's
// part runs where it is wanted only.
if (typeof document === 'undefined') {
  // heard from the first moment, as what comes before anyone listens is lost
  self.addEventListener('message', async ({ data }: MessageEvent<Question>) => {
    const { answerQuestion } = await import('./answerQuestion');
    await answerQuestion(data);
  });
} else void import('./start');

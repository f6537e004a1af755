/**
 * The answers to a stream of questions in the order asked, at most `width()` being worked on at once. An answer is given as
 * soon as it and all before it are there, whether or not another question has come: who asks may wait for it.
 */
export async function* mapInOrder<Q, A>(
  questions: AsyncIterable<Q>,
  width: () => number,
  answer: (question: Q) => Promise<A>,
): AsyncGenerator<A> {
  const asking = questions[Symbol.asyncIterator]();
  const under: Promise<A>[] = [];
  let asked: Promise<IteratorResult<Q>> | undefined;
  let ended = false;
  try {
    for (;;) {
      if (!ended && under.length < width()) asked ??= asking.next();
      if (under.length === 0 && !asked) return;
      const [first] = under;
      const next = await Promise.race([
        ...(first ? [first.then(() => 'answered' as const)] : []),
        ...(asked ? [asked.then(() => 'asked' as const)] : []),
      ]);
      if (next === 'answered') {
        yield await under.shift()!;
        continue;
      }
      const question = await asked!;
      asked = undefined;
      if (question.done) ended = true;
      else under.push(answer(question.value));
    }
  } finally {
    if (!ended) await asking.return?.();
  }
}

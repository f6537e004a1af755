/** The answers to a stream of questions in the order asked, at most `width` being worked on at once. */
export async function* mapInOrder<Q, A>(
  questions: AsyncIterable<Q> | Iterable<Q>,
  width: number,
  answer: (question: Q) => Promise<A>,
): AsyncGenerator<A> {
  const under: Promise<A>[] = [];
  for await (const question of questions) {
    if (under.length >= width) yield await under.shift()!;
    under.push(answer(question));
  }
  while (under.length > 0) yield await under.shift()!;
}

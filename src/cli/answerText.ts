/** What answers a line. Its number comes first, also where there is a key such as "1", which objects put before all others. */
export function answerText(line: number, answer: object): string {
  return `{"line":${line},${JSON.stringify(answer).slice(1)}`;
}

/** What a recording is called in a report: as its receiver is, with the placement where a run has that receiver twice. */
export function recordingLabel(
  { receiver, placement }: { readonly receiver: string; readonly placement?: string },
  run: readonly { readonly receiver: string }[],
): string {
  const twice = run.filter((other) => other.receiver === receiver).length > 1;
  return twice && placement !== undefined ? `${receiver}, ${placement}` : receiver;
}

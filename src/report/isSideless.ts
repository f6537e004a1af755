/** Whether a recording runs against the direction of the route, so that nothing lies to a side of it. */
export function isSideless({
  recording,
}: {
  readonly recording: { readonly placing?: readonly { readonly reason: string }[] };
}): boolean {
  return recording.placing?.some(({ reason }) => reason === 'against-route') ?? false;
}

/** Colours that are told apart. */
const COLOURS = 6;

/**
 * The look of each receiver, by its name alone: the same in every report. Names that end in successive letters or figures
 * get successive looks; where two would get the same, the later by name takes the next that is free.
 */
export function receiverSlots(labels: readonly string[]): ReadonlyMap<string, number> {
  const taken = new Set<number>();
  return new Map(
    [...labels].sort().map((label) => {
      const wanted = [...label].reduce((sum, character) => sum + character.codePointAt(0)!, 1) % COLOURS;
      for (let k = 0; ; k++) {
        const slot = ((wanted + k) % COLOURS) + COLOURS * Math.floor(k / COLOURS);
        if (taken.has(slot)) continue;
        taken.add(slot);
        return [label, slot];
      }
    }),
  );
}

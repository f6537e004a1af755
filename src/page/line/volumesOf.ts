import type { Change } from './History';

/** Numbers and words, about, at which a volume is full: what is not yet is written anew with each change. */
const FULL = 2000;

/** Volumes that are full, by their first change: the same objects each time they are asked for. */
const full = new WeakMap<Change, readonly Change[]>();

/** Changes in volumes, of which all but the last stay the same objects as more are added: what was kept once is kept. */
export function volumesOf(changes: readonly Change[]): readonly (readonly Change[])[] {
  const volumes: (readonly Change[])[] = [];
  for (let from = 0; from < changes.length; from += volumes[volumes.length - 1].length) {
    const known = full.get(changes[from]);
    if (known?.every((change, i) => change === changes[from + i])) {
      volumes.push(known);
      continue;
    }
    let [to, size] = [from, 0];
    while (to < changes.length && size < FULL) size += sizeOf(changes[to++]);
    const volume = changes.slice(from, to);
    if (size >= FULL) full.set(volume[0], volume);
    volumes.push(volume);
  }
  return volumes;
}

/** The changes in volumes that were kept; those but the last are not made anew. */
export function changesIn(volumes: readonly (readonly Change[])[]): readonly Change[] {
  for (const volume of volumes.slice(0, -1)) full.set(volume[0], volume);
  return volumes.flat();
}

function sizeOf(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 1;
  let size = 1;
  for (const one of Object.values(value)) size += sizeOf(one);
  return size;
}

import type { GeoJSON } from 'geojson';
import { createStore, delMany, getMany, keys, setMany, type UseStore } from 'idb-keyval';
import type { KeptLine } from './line';
import type { Entry } from './recordings/Entry';
import type { Stated } from './Stated';
import type { CompanionKey, GivenFile } from './work/Task';

/** What is there again when the page is opened the next time. */
export interface KeptPage {
  readonly line: KeptLine;
  readonly stated: Stated;
  readonly surroundings: GeoJSON | null;
  readonly companions: { readonly [key in CompanionKey]?: GivenFile };
  readonly truths: { readonly [run: string]: GivenFile };
  readonly entries: readonly Omit<Entry, 'id' | 'recording'>[];
}

/** What is not kept, and why. */
export interface Loss {
  readonly of: 'everything' | 'old changes';
  readonly sentence: string;
}

/** Milliseconds that nothing changes before it is written. */
const PAUSE = 400;

/** What has an entry of its own: a file, or a volume of changes of the line. */
type Part = Blob | KeptLine['volumes'][number];

/**
 * The browser's own store, in which what is open is kept: one entry for the page, one for each part, which is written
 * once, and one that says which window wrote last.
 * Where there is no room the oldest changes of the line are given up; where the store refuses still, that is said, and the
 * page goes on without.
 */
export class Kept {
  readonly #refused: (loss: Loss | null) => void;
  readonly #shared: () => void;
  readonly #keys = new WeakMap<Part, string>();
  /** Of which parts it is known that they are in the store. */
  #there = new Set<string>();
  /** Volumes of changes for which there was no room. */
  #givenUp = new WeakSet<Part>();
  /** Which window this is, and which one wrote last before it was opened. */
  readonly #window = crypto.randomUUID();
  #before: string | undefined;
  #store: UseStore | undefined;
  /** What is there is of another version of the page, and is not to be written over. */
  #foreign = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** What is not yet wholly written. */
  #next: KeptPage | undefined;
  #writing: Promise<void> = Promise.resolve();

  /**
   * @param refused - hears what is not kept, and why; null once all is
   * @param shared - hears that another window writes to the same store
   */
  constructor(refused: (loss: Loss | null) => void, shared: () => void) {
    this.#refused = refused;
    this.#shared = shared;
  }

  /** What was kept; undefined for nothing. */
  async read(): Promise<KeptPage | undefined> {
    try {
      this.#store = createStore('datumline', 'page');
      const names = (await keys<string>(this.#store)).filter((key) => key !== 'page' && key !== 'window');
      const [page, before, ...parts] = await getMany(['page', 'window', ...names], this.#store);
      this.#before = before;
      const partOf = new Map(names.map((name, i) => [name, parts[i] as Part]));
      for (const [name, part] of partOf) this.#keys.set(part, name);
      this.#there = new Set(names);
      // another window may have deleted a part since
      const found = (name: unknown) => (typeof name === 'string' ? (partOf.get(name) ?? null) : name);
      this.#foreign = page !== undefined && !Array.isArray(page.line?.volumes);
      if (this.#foreign) {
        const sentence =
          'What this browser keeps was written by another version of this page: it is left as it is, and what is open here is not kept. “Forget everything” deletes it.';
        this.#refused({ of: 'everything', sentence });
        return undefined;
      }
      return page && (withParts(page, found) as KeptPage);
    } catch (error) {
      this.#refuse(error);
      return undefined;
    }
  }

  /** Keeps what is open, after a pause. */
  write(page: KeptPage): void {
    clearTimeout(this.#timer);
    this.#next = page;
    this.#timer = setTimeout(() => {
      this.#writing = this.#writing
        .then(() => this.#put(page))
        .then(() => {
          if (this.#next === page) this.#next = undefined;
        });
    }, PAUSE);
  }

  /** Keeps what waits to be kept as the page goes: in one transaction, as nothing goes on after it. */
  leave(): void {
    const page = this.#next;
    if (!page || !this.#store || this.#foreign) return;
    const { named, parts } = this.#named(page);
    this.#store('readwrite', (entries) => {
      for (const [key, part] of parts) if (!this.#there.has(key)) entries.put(part, key);
      entries.put(named, 'page');
      entries.put(this.#window, 'window');
      entries.transaction.commit();
    }).catch(() => {});
  }

  /** Deletes all of it; whether that went well. */
  async forget(): Promise<boolean> {
    clearTimeout(this.#timer);
    this.#next = undefined;
    await this.#writing;
    try {
      if (this.#store) await delMany(await keys(this.#store), this.#store);
      this.#foreign = false;
      this.#refused(null);
      return true;
    } catch {
      return false;
    }
  }

  async #put(page: KeptPage): Promise<void> {
    if (!this.#store || this.#foreign) return;
    const volumes = this.#roomFor(page);
    try {
      await this.#putAll(page, this.#store);
      const [all, left] = [page.line.volumes, volumes].map((some) => some.reduce((sum, { length }) => sum + length, 0));
      const sentence = `What is open is kept, but of the changes of the line only the last ${left}: the browser has no room for the ${all - left} before them. Until the page is closed all can be undone.`;
      this.#refused(left < all ? { of: 'old changes', sentence } : null);
    } catch (error) {
      if (isFull(error) && volumes.length > 0) {
        const oldest = volumes.slice(0, Math.ceil(volumes.length / 2));
        for (const volume of oldest) this.#givenUp.add(volume);
        return this.#makeRoom(oldest, this.#store).then(
          () => this.#put(page),
          (other) => this.#refuse(other),
        );
      }
      // it is tried again with the next change, all of it: something else may have been what was too large
      this.#givenUp = new WeakSet();
      this.#refuse(error);
    }
  }

  async #makeRoom(volumes: readonly Part[], store: UseStore): Promise<void> {
    await delMany(
      volumes.flatMap((volume) => this.#keys.get(volume) ?? []),
      store,
    );
  }

  #roomFor({ line }: KeptPage): KeptLine['volumes'] {
    return line.volumes.filter((volume) => !this.#givenUp.has(volume));
  }

  /** What is written of a page: its parts by their keys, and the rest with the keys in their place. */
  #named(page: KeptPage): { readonly named: object; readonly parts: ReadonlyMap<string, Part> } {
    const parts = new Map<string, Part>();
    const line = { ...page.line, volumes: this.#roomFor(page) };
    const named = withParts({ ...page, line }, (part) => {
      if (!(part instanceof Blob || Array.isArray(part))) return part;
      const key = this.#keys.get(part) ?? crypto.randomUUID();
      this.#keys.set(part, key);
      parts.set(key, part);
      return key;
    });
    return { named, parts };
  }

  async #putAll(page: KeptPage, store: UseStore): Promise<void> {
    const { named, parts } = this.#named(page);
    const there = new Set(await keys<string>(store));
    const [writer] = await getMany<string>(['window'], store);
    if (writer !== this.#before && writer !== this.#window) this.#shared();
    const fresh = [...parts].filter(([key]) => !there.has(key));
    // all of it or nothing
    await setMany([...fresh, ['page', named], ['window', this.#window]], store);
    this.#there = new Set(parts.keys());
    // another window may have put them there: what is kept is what was changed last
    await delMany(
      [...there].filter((key) => key !== 'page' && key !== 'window' && !parts.has(key)),
      store,
    );
  }

  #refuse(error: unknown): void {
    const why = isFull(error)
      ? 'the browser has no more room for it'
      : 'this browser, or its private mode, keeps nothing';
    const sentence = `What is open is not kept: ${why}. Save the test before you close the page.`;
    this.#refused({ of: 'everything', sentence });
  }
}

function isFull(error: unknown): boolean {
  return (error as { name?: string } | null)?.name === 'QuotaExceededError';
}

/** The same with every part put in place of by what `swap` gives for it; of the volumes those after the last that lacks. */
function withParts(page: KeptPage, swap: (part: unknown) => unknown): object {
  const swapped = <T extends { readonly file: unknown }>(given: T) => ({ ...given, file: swap(given.file) });
  const each = (all: { readonly [key: string]: GivenFile | undefined }) =>
    Object.fromEntries(
      Object.entries(all).flatMap(([key, given]) => {
        const there = given && swapped(given);
        return there && there.file !== null ? [[key, there]] : [];
      }),
    );
  const { line, companions, truths, entries, ...rest } = page;
  const volumes = line.volumes.map(swap);
  const picture = line.picture && swapped(line.picture);
  return {
    ...rest,
    line: {
      ...{ ...line, volumes: volumes.slice(volumes.lastIndexOf(null) + 1) },
      picture: picture?.file ? picture : null,
    },
    ...{ companions: each(companions), truths: each(truths), entries: entries.map(swapped) },
  };
}

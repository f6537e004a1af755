import type { GeoJSON } from 'geojson';
import { createStore, delMany, getMany, keys, setMany, type UseStore } from 'idb-keyval';
import type { JsonValue } from './line';
import type { Entry } from './recordings/Entry';
import type { Stated } from './Stated';
import type { CompanionKey, GivenFile } from './work/Task';

/** What is there again when the page is opened the next time. */
export interface KeptPage {
  readonly line: JsonValue;
  readonly stated: Stated;
  readonly surroundings: GeoJSON | null;
  readonly companions: { readonly [key in CompanionKey]?: GivenFile };
  readonly truths: { readonly [run: string]: GivenFile };
  readonly entries: readonly Omit<Entry, 'id' | 'recording'>[];
}

/** Milliseconds that nothing changes before it is written. */
const PAUSE = 400;

/**
 * The browser's own store, in which what is open is kept: one entry for the page, one for each file, which is written once.
 * Where the store refuses, that is said, and the page goes on without.
 */
export class Kept {
  readonly #refused: (sentence: string | null) => void;
  readonly #keys = new Map<Blob, string>();
  #store: UseStore | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #writing: Promise<void> = Promise.resolve();

  constructor(refused: (sentence: string | null) => void) {
    this.#refused = refused;
  }

  /** What was kept; undefined for nothing. */
  async read(): Promise<KeptPage | undefined> {
    try {
      this.#store = createStore('datumline', 'page');
      const names = (await keys<string>(this.#store)).filter((key) => key !== 'page');
      const [page, ...files] = await getMany(['page', ...names], this.#store);
      files.forEach((file, i) => {
        this.#keys.set(file, names[i]);
      });
      const fileOf = new Map(names.map((name, i) => [name, files[i] as Blob]));
      return page && (withFiles(page, (name) => (typeof name === 'string' ? fileOf.get(name) : name)) as KeptPage);
    } catch (error) {
      this.#refuse(error);
      return undefined;
    }
  }

  /** Keeps what is open, after a pause. */
  write(page: KeptPage): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#writing = this.#writing.then(() => this.#put(page));
    }, PAUSE);
  }

  /** Deletes all of it; whether that went well. */
  async forget(): Promise<boolean> {
    clearTimeout(this.#timer);
    await this.#writing;
    this.#keys.clear();
    try {
      if (this.#store) await delMany(await keys(this.#store), this.#store);
      this.#refused(null);
      return true;
    } catch {
      return false;
    }
  }

  async #put(page: KeptPage): Promise<void> {
    if (!this.#store) return;
    const used = new Set<string>();
    const fresh = new Map<string, Blob>();
    const named = withFiles(page, (file) => {
      if (!(file instanceof Blob)) return file;
      const known = this.#keys.get(file);
      const key = known ?? crypto.randomUUID();
      if (known === undefined) fresh.set(key, file);
      this.#keys.set(file, key);
      used.add(key);
      return key;
    });
    try {
      // all of it or nothing
      await setMany([...fresh, ['page', named]], this.#store);
      const gone = [...this.#keys].filter(([, key]) => !used.has(key));
      for (const [file] of gone) this.#keys.delete(file);
      await delMany(
        gone.map(([, key]) => key),
        this.#store,
      );
      this.#refused(null);
    } catch (error) {
      // it is tried again with the next change
      for (const [key, file] of fresh) if (this.#keys.get(file) === key) this.#keys.delete(file);
      this.#refuse(error);
    }
  }

  #refuse(error: unknown): void {
    const full = (error as { name?: string } | null)?.name === 'QuotaExceededError';
    const why = full ? 'the browser has no more room for it' : 'this browser, or its private mode, keeps nothing';
    this.#refused(`What is open is not kept: ${why}. Save the test before you close the page.`);
  }
}

/** The same with every file put in place of by what `swap` gives for it. */
function withFiles(page: KeptPage, swap: (file: unknown) => unknown): object {
  const swapped = <T extends { readonly file: unknown }>(given: T) => ({ ...given, file: swap(given.file) });
  const each = (all: { readonly [key: string]: GivenFile | undefined }) =>
    Object.fromEntries(Object.entries(all).flatMap(([key, given]) => (given ? [[key, swapped(given)]] : [])));
  const { companions, truths, entries, ...rest } = page;
  return { ...rest, companions: each(companions), truths: each(truths), entries: entries.map(swapped) };
}

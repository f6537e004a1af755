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
 * The browser's own store, in which what is open is kept: one entry for the page, one for each file, which is written
 * once, and one that says which window wrote last.
 * Where the store refuses, that is said, and the page goes on without.
 */
export class Kept {
  readonly #refused: (sentence: string | null) => void;
  readonly #shared: () => void;
  readonly #keys = new WeakMap<Blob, string>();
  /** Which window this is, and which one wrote last before it was opened. */
  readonly #window = crypto.randomUUID();
  #before: string | undefined;
  #store: UseStore | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #writing: Promise<void> = Promise.resolve();

  /**
   * @param refused - hears why nothing is kept; null once it is
   * @param shared - hears that another window writes to the same store
   */
  constructor(refused: (sentence: string | null) => void, shared: () => void) {
    this.#refused = refused;
    this.#shared = shared;
  }

  /** What was kept; undefined for nothing. */
  async read(): Promise<KeptPage | undefined> {
    try {
      this.#store = createStore('datumline', 'page');
      const names = (await keys<string>(this.#store)).filter((key) => key !== 'page' && key !== 'window');
      const [page, before, ...files] = await getMany(['page', 'window', ...names], this.#store);
      this.#before = before;
      files.forEach((file, i) => {
        this.#keys.set(file, names[i]);
      });
      const fileOf = new Map(names.map((name, i) => [name, files[i] as Blob]));
      // another window may have deleted a file since
      const found = (name: unknown) => (typeof name === 'string' ? (fileOf.get(name) ?? null) : name);
      return page && (withFiles(page, found) as KeptPage);
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
    const files = new Map<string, Blob>();
    const named = withFiles(page, (file) => {
      if (!(file instanceof Blob)) return file;
      const key = this.#keys.get(file) ?? crypto.randomUUID();
      this.#keys.set(file, key);
      files.set(key, file);
      return key;
    });
    try {
      const there = new Set(await keys<string>(this.#store));
      const [writer] = await getMany<string>(['window'], this.#store);
      if (writer !== this.#before && writer !== this.#window) this.#shared();
      const fresh = [...files].filter(([key]) => !there.has(key));
      // all of it or nothing
      await setMany([...fresh, ['page', named], ['window', this.#window]], this.#store);
      // another window may have put them there: what is kept is what was changed last
      await delMany(
        [...there].filter((key) => key !== 'page' && key !== 'window' && !files.has(key)),
        this.#store,
      );
      this.#refused(null);
    } catch (error) {
      // it is tried again with the next change
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
    Object.fromEntries(
      Object.entries(all).flatMap(([key, given]) => {
        const there = given && swapped(given);
        return there && there.file !== null ? [[key, there]] : [];
      }),
    );
  const { companions, truths, entries, ...rest } = page;
  return { ...rest, companions: each(companions), truths: each(truths), entries: entries.map(swapped) };
}

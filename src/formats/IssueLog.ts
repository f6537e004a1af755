import { issueSentences, type ReadIssue, type ReadIssueReason } from '../model';

/** Counts what is dropped or mended, one entry a kind, remembering where it happened first. */
export class IssueLog {
  readonly #entries = new Map<ReadIssueReason, { count: number; place: string }>();

  /** @param place called only for the first of its kind */
  note(reason: ReadIssueReason, place: () => string, count = 1): void {
    const entry = this.#entries.get(reason);
    if (entry) entry.count += count;
    else this.#entries.set(reason, { count, place: place() });
  }

  /** Adds what another log counts: of a part that is left out itself. */
  take(other: IssueLog): void {
    for (const [reason, { count, place }] of other.#entries) this.note(reason, () => place, count);
  }

  /** All of it in one sentence, for a refusal; nothing when there is none. */
  sentence(): string {
    const entries = [...this.#entries].map(([reason, { count, place }]) => `${reason}: ${count}, first at ${place}`);
    return entries.length === 0 ? '' : `Dropped or mended ${entries.join('; ')}`;
  }

  list(): ReadIssue[] {
    return [...this.#entries].map(([reason, { count, place }]) => ({
      reason,
      count,
      place,
      message: issueSentences[reason],
    }));
  }
}

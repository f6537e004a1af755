import type { ReadIssue } from '../model';

/** What a reader drops or mends, each kind with its sentence. Sentences quote nothing from the file. */
const sentences = {
  'missing-position':
    'Points without a position were dropped; the line is broken there unless the times beside show no gap',
  'zero-position': 'Points at 0, 0, which receivers write when they have no fix, were dropped',
  'invalid-position': "Points at a receiver's mark for no position were dropped",
  'no-fix': 'Points that say themselves they had no fix were dropped',
  'wrapped-longitude': 'Longitudes outside [-180, 180) were given as the same meridian within it',
  'missing-time': 'Some points have no time; it stays unknown',
  'unreadable-time': 'Times that could not be read stay unknown',
  'unreadable-height': 'Heights that could not be read stay unknown',
  'unreadable-quality': 'Dilutions, accuracies and numbers of satellites that could not be read stay unknown',
  'invalid-height': "Heights at a receiver's mark for no height stay unknown",
  'repeated-fix': 'Points that repeat the one before, time and position, were dropped',
  'repeated-time': 'Points share the time of the one before; all were kept',
  'reversed-time': 'Times fall; the order of the file was kept and the line broken there',
  'time-gap': 'No points for much longer than usual; the line is broken there',
  teleport: 'Points lie farther from the one before than can be travelled; kept, and the line is broken there',
  'frozen-position': 'Long runs of points repeat one position; kept, though the receiver may have had no fix',
  'bare-ampersand': 'Ampersands that start no reference were taken as themselves',
  'leading-blanks': 'Blanks before the XML declaration were passed over',
  'ground-height': 'Heights of 0 on a line laid on the ground say nothing and were left out',
  'unmatched-time': 'Points and times differ in number; those without a partner have no time or were dropped',
  'network-link': 'Links to other documents were not followed',
  'other-document': 'Documents of the archive beside its main one were not read',
  'extra-numbers': 'Positions hold more than longitude, latitude and height; the rest was left out',
  'unmatched-column': 'Values beside the positions differ from them in number, so that none can be matched; left out',
  'not-a-sentence': 'Lines that are no whole sentence were left out',
  checksum: 'Sentences or files whose checksum fails: sentences were dropped, files read nevertheless',
  unchecked: 'Sentences without a checksum were taken as they stand',
  'entered-position': 'Positions that say themselves they were entered or simulated were dropped',
  'estimated-position': 'Positions that say themselves they were estimated, not measured, were kept',
  'week-rollover': 'Dates 1024 weeks before their neighbours, from a week counter run over, were mended',
  'no-date': 'The file states no date; its times count from 1970-01-01',
  preamble: 'Lines before the header of the table were passed over',
  'ragged-row': 'Rows with another number of cells than the header were dropped',
  'decimal-comma': 'Numbers were read with a decimal comma',
  'converted-feet': 'Heights in feet were turned into metres',
  'cut-off': 'The file ends or is damaged within; what came before was kept',
  'trailing-bytes': 'Bytes after the end of the file were passed over',
  'single-point': 'Pieces of a single point are no lines and were left out',
  'not-recorded': 'Routes and single points are not recordings and were left out',
  'not-a-line': 'Single points and areas are not lines and were left out',
  'too-short': 'Tracks of fewer than 2 usable points were left out',
} as const satisfies Record<string, string>;

/** Why a reader dropped or mended something. */
export type IssueReason = keyof typeof sentences;

/** Counts what is dropped or mended, one entry a kind, remembering where it happened first. */
export class IssueLog {
  readonly #entries = new Map<IssueReason, { count: number; place: string }>();

  /** @param place called only for the first of its kind */
  note(reason: IssueReason, place: () => string, count = 1): void {
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
      message: sentences[reason],
    }));
  }
}

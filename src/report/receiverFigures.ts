import type { AssessmentRow, Interval } from '../assess';
import type { SummaryRow } from '../runs';
import type { Receiver, ReportModel, Strand } from './reportModel';
import { strandsOf } from './runList';

/** Share of a stretch below which figures of it are faint: what is not covered may lie elsewhere. */
export const FAINT_BELOW = 0.8;

/** What one receiver shows on one section, or on the whole route, over its runs. */
export interface ReceiverFigures {
  readonly receiver: Receiver;
  readonly rows: readonly { readonly strand: Strand; readonly row: AssessmentRow }[];
  /** Mean over the runs of the mean distance. */
  readonly meanAbsolute: number | null;
  readonly interval95: Interval | null;
  /** What the interval speaks of. */
  readonly holdsFor: 'this run only' | 'over the runs' | null;
  readonly bias: number | null;
  readonly insideCorridor: number | null;
  readonly coverage: number;
  /** Letters of the ties; null where none were judged or they differ between the runs. */
  readonly ties: string | null;
  /** The row that speaks for all of them: over the runs, or of the only one; null where none does. */
  readonly judged: SummaryRow | AssessmentRow | null;
}

/** The receiver's figures on a section: those over the runs where a summary has them, else the mean over its recordings. */
export function receiverFigures(model: ReportModel, receiver: Receiver, section: string | null): ReceiverFigures {
  const rows = strandsOf(model, receiver).flatMap((strand) => {
    const row = strand.rows.get(section);
    return row ? [{ strand, row }] : [];
  });
  const summed = model.summary?.rows.find((row) => row.receiver === receiver.label && row.section === section);
  const single = rows.length === 1 ? rows[0] : undefined;
  const judged = summed ?? single?.row ?? null;
  const order = model.summary?.order.find((entry) => entry.section === section);
  const ties = summed
    ? order?.entries.find((entry) => entry.receiver === receiver.label)?.ties
    : single?.strand.assessment.order
        .find((entry) => entry.section === section && entry.run === single.strand.recording.run)
        ?.entries.find((entry) => entry.recording === single.strand.recording.name)?.ties;
  return {
    receiver,
    rows,
    meanAbsolute: judged ? judged.meanAbsolute : mean(rows.map(({ row }) => row.meanAbsolute)),
    interval95: judged?.interval95 ?? null,
    holdsFor: !judged?.interval95 ? null : summed ? 'over the runs' : 'this run only',
    bias: judged ? judged.bias : mean(rows.map(({ row }) => row.bias)),
    insideCorridor: judged ? judged.insideCorridor : mean(rows.map(({ row }) => row.insideCorridor)),
    coverage: judged ? judged.coverage : (mean(rows.map(({ row }) => row.coverage)) ?? 0),
    ties: ties || null,
    judged,
  };
}

/** Mean of the figures there are; null without any. */
export function mean(values: readonly (number | null)[]): number | null {
  const known = values.filter((value): value is number => value !== null);
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
}

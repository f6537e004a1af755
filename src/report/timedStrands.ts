import type { ReceiverLooks } from '../model';
import type { TimedAssessment, TimedRecording, TimedRow } from '../truth';
import type { Receiver, ReportModel } from './reportModel';

/** A recording that was judged by the clock. */
export interface TimedStrand {
  readonly receiver: Receiver;
  readonly run: string | null;
  /** Unique in the report. */
  readonly label: string;
  readonly recording: TimedRecording;
  readonly timed: TimedAssessment;
  /** By section name; null is the whole. */
  readonly rows: ReadonlyMap<string | null, TimedRow>;
}

/** The recordings judged by the clock, each drawn as the report draws its receiver. */
export function timedStrands(
  model: ReportModel,
  timed: readonly TimedAssessment[],
  looks: ReceiverLooks,
): TimedStrand[] {
  const receivers = new Map(model.receivers.map((receiver) => [receiver.label, receiver]));
  const receiverOf = (label: string): Receiver => {
    const known = receivers.get(label);
    if (known !== undefined) return known;
    // one that could not be placed on the route has a look of its own all the same
    const taken = new Set([...receivers.values()].map(({ slot }) => slot));
    let slot = 0;
    while (taken.has(slot)) slot++;
    const receiver = { label, slot, look: Object.hasOwn(looks, label) ? looks[label] : {} };
    receivers.set(label, receiver);
    return receiver;
  };
  return timed.flatMap((one, i) =>
    one.recordings.flatMap((recording): TimedStrand[] => {
      const rows = one.rows.filter((row) => row.recording === recording.name);
      if (rows.length === 0) return [];
      const run = recording.run ?? (timed.length > 1 ? `run ${i + 1}` : null);
      const placed = model.strands.find(
        (strand) =>
          strand.recording.name === recording.name && (strand.recording.run === recording.run || strand.run === run),
      );
      const receiver = receiverOf(placed?.receiver.label ?? recording.receiver ?? recording.name);
      const several = timed.length > 1 || new Set(one.recordings.map((other) => other.run)).size > 1;
      return [
        {
          receiver,
          run,
          label: run === null || !several ? receiver.label : `${receiver.label} (${run})`,
          recording,
          timed: one,
          rows: new Map(rows.map((row) => [row.section, row])),
        },
      ];
    }),
  );
}

import { InputError, parseTime } from '../model';
import type { IssueLog } from './IssueLog';

/** The instant that `text` writes, milliseconds since the Unix epoch; NaN where it writes none, noted unless it is blank. */
export type TimeReader = (text: string, issues: IssueLog, place: () => string) => number;

/**
 * Reads the times of a document whose times without a zone are in the zone a caller states: `UTC` or `Z`, an offset such
 * as `+02:00`, or a name of the time zone database. Such times are noted.
 *
 * Without a zone they are refused: a time that states none could be any of a day's. A local time that a change of clocks
 * repeats is the one nearer to the time read before, the first of all the earlier; one it skips is taken with the offset before
 * the change.
 *
 * @throws {InputError} `wrong-type` for an unknown zone
 */
export function timeReader(zone: string | undefined): TimeReader {
  const toUtc = zone === undefined ? refuseLocal : localTime(zone);
  return (text, issues, place) => {
    const time = parseTime(text, (instant) => {
      issues.note('zone-less-time', place);
      return toUtc(instant);
    });
    if (Number.isNaN(time) && text.trim() !== '') issues.note('unreadable-time', place);
    return time;
  };
}

function refuseLocal(instant: number): never {
  throw new InputError({
    reason: 'missing',
    argument: 'options.zone',
    rule: "given when times in the file state no zone: 'UTC', an offset such as '+02:00' or a time zone name",
    value: undefined,
    hint: `The first such time is ${new Date(instant).toISOString().slice(0, 19)}`,
  });
}

/** The function that turns a local instant (read as if it were UTC) into UTC. */
function localTime(zone: string): (instant: number) => number {
  const fixed = typeof zone === 'string' ? /^(?:utc|z|([+-])(\d\d):?(\d\d))$/i.exec(zone) : null;
  if (fixed) {
    const minutes = fixed[1] ? (fixed[1] === '-' ? -1 : 1) * (+fixed[2] * 60 + +fixed[3]) : 0;
    if (Math.abs(minutes) <= 14 * 60) return (instant) => instant - minutes * 60_000;
  }
  let format: Intl.DateTimeFormat;
  try {
    if (typeof zone !== 'string' || fixed) throw new RangeError();
    format = new Intl.DateTimeFormat('en-US', {
      timeZone: zone,
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
    });
  } catch {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'options.zone',
      rule: "'UTC', an offset such as '+02:00' or a time zone name",
      value: zone,
    });
  }
  const offsets = new Map<number, number>();
  /** Offset at an instant; asked once a quarter of an hour, as zones change on none smaller. */
  const offsetAt = (instant: number) => {
    const quarter = Math.floor(instant / 900_000);
    let offset = offsets.get(quarter);
    if (offset === undefined) {
      const part = Object.fromEntries(format.formatToParts(quarter * 900_000).map(({ type, value }) => [type, +value]));
      offset = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second) - quarter * 900_000;
      offsets.set(quarter, offset);
    }
    return offset;
  };
  let last = Number.NEGATIVE_INFINITY;
  return (instant) => {
    const before = instant - offsetAt(instant - 86_400_000);
    const after = instant - offsetAt(instant + 86_400_000);
    const candidates = [Math.min(before, after), Math.max(before, after)];
    if (Math.abs(candidates[1] - last) < Math.abs(candidates[0] - last)) candidates.reverse();
    last = candidates.find((candidate) => candidate + offsetAt(candidate) === instant) ?? before;
    return last;
  };
}

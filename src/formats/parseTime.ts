import type { LocalTime } from './localTime';

const pattern =
  /^(\d{4})[-/](\d\d)[-/](\d\d)[Tt ]+(\d\d):(\d\d)(?::(\d\d)(?:[.,](\d+))?)?\s*(?:([Zz])|([+-])(\d\d):?(\d\d)?)?$/;

/**
 * The instant that an XML `dateTime` writes, in milliseconds since the Unix epoch; NaN where it writes none.
 *
 * A blank for the `T`, `/` in the date and missing seconds are accepted; second 60 is the first of the next minute.
 *
 * @param local turns a local instant, for a time that states no zone, into UTC
 * @see XML Schema Part 2: Datatypes, 3.2.7 dateTime, W3C 2004
 */
export function parseTime(text: string, local: LocalTime): number {
  const match = pattern.exec(text.trim());
  if (!match) return Number.NaN;
  const [year, month, day, hour, minute] = [+match[1], +match[2], +match[3], +match[4], +match[5]];
  const second = +(match[6] ?? 0);
  const fraction = match[7] ?? '';
  if (hour > 24 || (hour === 24 && (minute > 0 || second > 0)) || minute > 59 || second > 60) return Number.NaN;
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, day);
  if (date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return Number.NaN;
  // whole milliseconds apart from the rest, so that what was written with all its digits is read back exactly
  const milliseconds = +fraction.slice(0, 3).padEnd(3, '0') + (fraction.length > 3 ? +`0.${fraction.slice(3)}` : 0);
  const instant = date.getTime() + ((hour * 60 + minute) * 60 + second) * 1000 + milliseconds;
  if (match[8]) return instant;
  if (!match[9]) return local(instant);
  const offset = +match[10] * 60 + +(match[11] ?? 0);
  if (offset > 14 * 60) return Number.NaN;
  return instant - (match[9] === '-' ? -1 : 1) * offset * 60_000;
}

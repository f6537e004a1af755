import { complementDigits } from './complementDigits';
import { midnightOf } from './midnightOf';

const pattern =
  /^(\d{4})[-/](\d\d)[-/](\d\d)[Tt ]+(\d\d):(\d\d)(?::(\d\d)(?:[.,](\d+))?)?\s*(?:([Zz])|([+-])(\d\d):?(\d\d)?)?$/;

/**
 * The instant that an XML `dateTime` writes, in milliseconds since the Unix epoch; NaN where it writes none, or a date
 * that the calendar does not have.
 *
 * A blank for the `T`, `/` in the date and missing seconds are accepted; second 60 is the first of the next minute.
 *
 * @param local turns a local instant (read as if it were UTC), for a time that states no zone, into UTC; without it such a
 * time is none
 * @see XML Schema Part 2: Datatypes, 3.2.7 dateTime, W3C 2004
 */
export function parseTime(text: string, local?: (instant: number) => number): number {
  const usual = usualTime(text);
  if (!Number.isNaN(usual)) return usual;
  const match = pattern.exec(text.trim());
  if (!match) return Number.NaN;
  const [hour, minute, second, fraction] = [+match[4], +match[5], +(match[6] ?? 0), match[7] ?? ''];
  if (hour > 24 || (hour === 24 && (minute > 0 || second > 0)) || minute > 59 || second > 60) return Number.NaN;
  const midnight = midnightOf(+match[1], +match[2], +match[3]);
  const instant = midnight + ((hour * 60 + minute) * 60 + second) * 1000 + +fraction.slice(0, 3).padEnd(3, '0');
  if (Number.isNaN(instant)) return instant;
  if (match[8]) return withPlaces(instant, fraction);
  if (!match[9]) return local ? withPlaces(local(instant), fraction) : Number.NaN;
  const offset = +match[10] * 60 + +(match[11] ?? 0);
  if (offset > 14 * 60 || +(match[11] ?? 0) > 59) return Number.NaN;
  return withPlaces(instant - (match[9] === '-' ? -1 : 1) * offset * 60_000, fraction);
}

/** A time as nearly every file writes it, `2026-05-01T08:00:00Z` with three decimal places or none; NaN for any other. */
function usualTime(text: string): number {
  const { length } = text;
  const code = (at: number) => text.charCodeAt(at);
  if (length !== 20 && !(length === 24 && code(19) === 46)) return Number.NaN;
  if (code(4) !== 45 || code(7) !== 45 || code(10) !== 84 || code(13) !== 58 || code(16) !== 58) return Number.NaN;
  const [hour, minute, second] = [pairAt(text, 11), pairAt(text, 14), pairAt(text, 17)];
  if (code(length - 1) !== 90 || !(hour <= 23 && minute <= 59 && second <= 59)) return Number.NaN;
  const thousandths = length === 20 ? 0 : pairAt(text, 20) * 10 + (pairAt(text, 21) % 10);
  const midnight = midnightOf(pairAt(text, 0) * 100 + pairAt(text, 2), pairAt(text, 5), pairAt(text, 8));
  return midnight + ((hour * 60 + minute) * 60 + second) * 1000 + thousandths;
}

/** The number of two digits; NaN where there are none. */
function pairAt(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48;
  const ones = text.charCodeAt(at + 1) - 48;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : Number.NaN;
}

/** A whole number of milliseconds and what the fraction of a second says beyond them, rounded once: as written, so read. */
function withPlaces(whole: number, fraction: string): number {
  let end = fraction.length;
  while (end > 3 && fraction[end - 1] === '0') end--;
  if (end <= 3) return whole;
  const places = fraction.slice(3, end);
  return whole >= 0 ? +`${whole}.${places}` : -`${-whole - 1}.${complementDigits(places)}`;
}

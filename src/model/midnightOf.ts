/** 400 years of the Gregorian calendar, after which it repeats, in milliseconds. */
const ERA = 146_097 * 86_400_000;

/**
 * The beginning of a day in UTC, in milliseconds since the Unix epoch; NaN for one that the calendar does not have, such
 * as 31 February.
 *
 * @param month - 1 for January
 * @see ISO 8601: the Gregorian calendar, also for the years before it was introduced
 */
export function midnightOf(year: number, month: number, day: number): number {
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  // 31 days in odd months up to July and in even ones from August on
  const days = month === 2 ? (leap ? 29 : 28) : 30 + ((month + (month >> 3)) & 1);
  if (!(month >= 1 && month <= 12 && day >= 1 && day <= days)) return Number.NaN;
  // Date.UTC takes the years 0 to 99 for those of the last century
  return Date.UTC(year + 400, month - 1, day) - ERA;
}

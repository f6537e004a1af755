const DAY = 86_400_000;

/** Days from 1 March of the year 0 to 1 January 1970. */
const EPOCH = 719_468;

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
  // years from March to March, so that the day which leap years have more is their last
  const y = month > 2 ? year : year - 1;
  const before = 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400);
  // the months from March on have 31 and 30 days in turn, five of them 153
  return (before + Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1 - EPOCH) * DAY;
}

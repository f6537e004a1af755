/** As nearly every table has it. */
const USUAL = /^\d{4}-\d\d-\d\dT\d\d:\d\d:[\d.]+(?:Z|[+-]\d\d:\d\d)?$/;

/** Parts of a date, the year first or, between points, last; of a clock of 12 or 24 hours; and what stands behind. */
const SPELLED =
  /^(?:(\d{4})([-/.])(\d\d?)\2(\d\d?)|(\d\d?)\.(\d\d?)\.(\d{4}))[Tt, ]+(\d\d?)(:\d\d(?::\d\d(?:[.,]\d+)?)?)\s*(?:([ap])\.?m\.?)?(.*)$/i;

/** ISO 8601, the basic format: no separators but for the `T`. */
const BASIC = /^(\d{4})(\d\d)(\d\d)[T ]?(\d\d)(\d\d)(\d\d)(\D.*)?$/i;

/**
 * A time as tables have it, put as XML has it; any other text as it is.
 *
 * Turned are dates whose parts are separated by points, the day first or the year, hours of one digit, `AM` and `PM`, and the basic
 * format of ISO 8601. Of a date with slashes whose year is last, nobody knows whether the day or the month is first: it stays.
 * Common practice, no source.
 */
export function spelledTime(text: string): string {
  if (USUAL.test(text)) return text;
  const basic = BASIC.exec(text);
  if (basic) {
    const [, year, month, day, hour, minute, second, rest = ''] = basic;
    return `${year}-${month}-${day}T${hour}:${minute}:${second}${rest}`;
  }
  const spelled = SPELLED.exec(text);
  if (!spelled) return text;
  const [, yearFirst, , monthNext, dayLast, dayFirst, monthSecond, yearLast, written, clock, half, rest] = spelled;
  let hour = Number(written);
  if (half) {
    if (hour < 1 || hour > 12) return text;
    hour = (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  }
  const [year, month, day] = [yearFirst ?? yearLast, monthNext ?? monthSecond, dayLast ?? dayFirst];
  return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}T${String(hour).padStart(2, '0')}${clock}${rest}`;
}

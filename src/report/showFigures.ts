const minus = '\u2212';
/** A figure and its unit stay on one line. */
const joint = '\u00A0';

function digits(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  const [whole, fraction] = text.split('.');
  const grouped = whole.length > 4 ? inThrees(whole) : whole;
  const sign = value < 0 && Number(text) !== 0 ? minus : '';
  return sign + grouped + (fraction === undefined ? '' : `.${fraction}`);
}

/** Digits in groups of three from the right. */
function inThrees(whole: string): string {
  const first = whole.length % 3;
  const groups = first === 0 ? [] : [whole.slice(0, first)];
  for (let at = first; at < whole.length; at += 3) groups.push(whole.slice(at, at + 3));
  return groups.join('\u202F');
}

/** Decimals that an offset deserves: tenths below 100 m. */
function decimalsFor(value: number): number {
  return Math.abs(value) < 99.95 ? 1 : 0;
}

/** "3.2 m"; "no figure" for null. */
export function showMetres(value: number | null): string {
  return value === null ? 'no figure' : `${digits(value, decimalsFor(value))}${joint}m`;
}

/** "+3.2 m", "−3.2 m", "0.0 m". */
export function showSigned(value: number | null): string {
  if (value === null) return 'no figure';
  return `${value > 0 && Number(value.toFixed(decimalsFor(value))) !== 0 ? '+' : ''}${showMetres(value)}`;
}

/** "2.1 m left", "2.1 m right"; "0.0 m" where the figure shows no side. */
export function showOffset(value: number | null): string {
  if (value === null) return 'no figure';
  const size = Math.abs(value);
  const side = Number(size.toFixed(1)) === 0 ? '' : value < 0 ? `${joint}left` : `${joint}right`;
  return showMetres(size) + side;
}

/** How far an excursion led, and to which side where that is judged. */
export function showPeak({ peak, side }: { readonly peak: number; readonly side: string | null }): string {
  return side === null ? showMetres(peak) : showOffset(peak);
}

/** "0.9–1.6 m", "−1.1 to 1.9 m" where a sign would run into the dash. */
export function showInterval(interval: readonly [low: number, high: number] | null): string {
  if (interval === null) return 'no interval';
  const [low, high] = interval;
  const decimals = Math.min(decimalsFor(low), decimalsFor(high));
  const between = low < 0 || high < 0 ? ' to ' : '–';
  return `${digits(low, decimals)}${between}${digits(high, decimals)}${joint}m`;
}

/** A place or length along the route in whole metres: "1234 m", "12 345 m". */
export function showAlong(value: number | null): string {
  return value === null ? 'no figure' : `${digits(value, 0)}${joint}m`;
}

/** "120–340 m". */
export function showStretch(from: number, to: number): string {
  return `${digits(from, 0)}–${digits(to, 0)}${joint}m`;
}

/** "97 %"; never 100 % unless it is all, never 0 % unless it is nothing: ">99 %", "<1 %". */
export function showShare(value: number | null): string {
  if (value === null) return 'no figure';
  const percent = Math.round(value * 100);
  const honest = percent === 100 && value < 1 ? '>99' : percent === 0 && value > 0 ? '<1' : percent;
  return `${honest}${joint}%`;
}

/** "62–91 %". */
export function showShares([low, high]: readonly [low: number, high: number]): string {
  return `${Math.round(low * 100)}–${Math.round(high * 100)}${joint}%`;
}

/** "48 s", "3 min 20 s", "1 h 5 min". */
export function showDuration(seconds: number | null): string {
  if (seconds === null) return 'no figure';
  const whole = Math.round(seconds);
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60];
  if (hours > 0) return `${hours}${joint}h ${minutes}${joint}min`;
  return minutes > 0 ? `${minutes}${joint}min ${rest}${joint}s` : `${digits(seconds, seconds < 9.95 ? 1 : 0)}${joint}s`;
}

/** "1 run", "3 runs". */
export function showCount(n: number, one: string, more = `${one}s`): string {
  return `${n} ${n === 1 ? one : more}`;
}

/** A plain number with the decimals asked for and a true minus sign; "no figure" for null. */
export function showNumber(value: number | null, decimals: number): string {
  return value === null ? 'no figure' : digits(value, decimals);
}

/** "A", "A and B", "A, B and C". */
export function showList(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

/** The interval of an offset: "2.0–4.2 m" to one side, "1.0 m left to 1.4 m right" across the line. */
export function showSides([low, high]: readonly [low: number, high: number]): string {
  if (low < 0 && high > 0) return `${showOffset(low)} to ${showOffset(high)}`;
  return showInterval(low < 0 ? [-high, -low] : [low, high]);
}

/** A size and its interval, signs dropped: "3.1 m, 2.0–4.2 m"; what is null left out. */
export function showRange(value: number | null, interval: readonly [low: number, high: number] | null): string {
  const ends = interval && [Math.abs(interval[0]), Math.abs(interval[1])].sort((a, b) => a - b);
  return [value === null ? '' : showMetres(Math.abs(value)), ends ? showInterval([ends[0], ends[1]]) : '']
    .filter(Boolean)
    .join(', ');
}

/** "+1.2 s", "−0.4 s". */
export function showLateness(seconds: number): string {
  const sign = Math.abs(seconds) < 0.05 ? '' : seconds < 0 ? minus : '+';
  return `${sign}${showDuration(Math.abs(seconds))}`;
}

import type { Interval } from '../statistics';
import type { Passage } from './Assessment';

/** What is known of where the lines of one lay: a recording, or a receiver over its runs. */
export interface ToldGround {
  readonly name: string;
  readonly passages: readonly Omit<Passage, 'number' | 'recording'>[];
  readonly insideAllowed: number | null;
  readonly insideAllowedInterval95: Interval | null;
}

/** More areas than these are counted, not named. */
const MOST_NAMED = 4;

/**
 * Who went through what for how many metres and seconds, who was off the allowed ground, and how much each was on it, a
 * sentence each.
 *
 * “A” went through “mill” for 14.2 m, 9 s. “A” lay inside “roadway” on 93 % of its line (88 to 97).
 *
 * @param allowed - Names of the allowed areas.
 */
export function groundSentences(ones: readonly ToldGround[], allowed: readonly string[]): string[] {
  const ground = allowed.length === 1 ? `“${allowed[0]}”` : 'the allowed areas';
  return [
    ...ones.flatMap(({ name, passages }) => {
      const through = passages.filter(({ area }) => area !== null);
      const areas = [...new Set(through.map(({ area }) => area))].map((area) => ({
        area,
        stays: through.filter((passage) => passage.area === area),
      }));
      if (areas.length === 0) return [];
      areas.sort((a, b) => metresOf(b.stays) - metresOf(a.stays));
      const named = areas
        .slice(0, MOST_NAMED)
        .map(({ area, stays }) => `“${area}” for ${told(stays)}${stays.length > 1 ? ` (${stays.length} times)` : ''}`);
      const more = areas.slice(MOST_NAMED).flatMap(({ stays }) => stays);
      const rest = more.length === 0 ? [] : [`${areas.length - MOST_NAMED} more for ${told(more)}`];
      return [`“${name}” went through ${list([...named, ...rest])}.`];
    }),
    ...ones.flatMap(({ name, passages, insideAllowed, insideAllowedInterval95: interval }) => {
      if (insideAllowed === null) return [];
      const sure = interval === null ? '' : ` (${percent(interval[0])} to ${percent(interval[1])})`;
      const off = passages.filter(({ area }) => area === null);
      const [longest] = [...off].sort((a, b) => b.metres - a.metres);
      const times = off.length === 1 ? 'once' : `${off.length} times`;
      const away = longest === undefined ? '' : `, outside of it ${times}, at the longest for ${told([longest])}`;
      return [`“${name}” lay inside ${ground} on ${percent(insideAllowed)} % of its line${sure}${away}.`];
    }),
  ];
}

const metresOf = (stays: ToldGround['passages']) => stays.reduce((sum, { metres }) => sum + metres, 0);

/** "14.2 m, 9 s". */
function told(stays: ToldGround['passages']): string {
  const timed = stays.every(({ seconds }) => seconds !== null);
  const seconds = stays.reduce((sum, stay) => sum + (stay.seconds ?? 0), 0);
  const metres = metresOf(stays);
  const duration = seconds < 9.95 ? seconds.toFixed(1) : Math.round(seconds).toString();
  return `${metres < 99.95 ? metres.toFixed(1) : Math.round(metres)} m${timed ? `, ${duration} s` : ''}`;
}

/** Never 100 unless it is all, never 0 unless it is nothing. */
function percent(share: number): number {
  const whole = Math.round(100 * share);
  return whole === 100 && share < 1 ? 99 : whole === 0 && share > 0 ? 1 : whole;
}

function list(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

import { type BinRange, nameLaps } from '../assess';
import type { Recording, Route } from '../model';
import { snap } from '../snap';
import type { TrueMotion } from './TrueMotion';

/** The seconds of the truth, and those in which it was in each section of a route. */
export interface TruthSeconds {
  /** Milliseconds since the Unix epoch at which the first begins. */
  readonly begun: number;
  readonly count: number;
  /** 1 where the place is known. */
  readonly known: Uint8Array;
  /** Stated uncertainty (95 %); NaN where unknown or unstated. */
  readonly doubt: Float64Array;
  /** Metres along the route; NaN where it is not on it. */
  readonly alongTrack: Float64Array;
  readonly sections: readonly { readonly name: string; readonly range: BinRange }[];
  /** The whole cut at every end of a section. */
  readonly parts: readonly BinRange[];
  /** Why the truth tells of no sections, where it doesn't. */
  readonly offRoute: string | undefined;
}

export const SECTION_RULE =
  'A second belongs to the section that the truth had reached by then: going back over the end of a section does not leave it.';

/** The truth second by second, with a fix of each second placed on the route. */
export function timedSections(motion: TrueMotion, authored: Route | undefined): TruthSeconds {
  const [from, to] = motion.span;
  const begun = 1000 * Math.floor(from / 1000);
  const count = Math.floor((to - begun) / 1000) + 1;
  const known = new Uint8Array(count);
  const doubt = new Float64Array(count).fill(Number.NaN);
  const alongTrack = new Float64Array(count).fill(Number.NaN);
  const first: number[] = [];
  for (let i = 0; i < motion.time.length; i++) {
    const k = Math.floor((motion.time[i] - begun) / 1000);
    if (known[k] === 0) {
      first.push(i);
      doubt[k] = 0;
    }
    known[k] = 1;
    doubt[k] = Math.max(doubt[k], motion.doubt[i]);
  }
  for (let k = 0; k < count; k++) {
    const middle = begun + 1000 * k + 500;
    if (known[k] === 1 || !motion.known(middle)) continue;
    known[k] = 1;
    doubt[k] = motion.doubtAt(middle);
  }
  const whole = { first: 0, end: count };
  const plain = { begun, count, known, doubt, alongTrack, sections: [], parts: [whole], offRoute: undefined };
  if (authored === undefined) return plain;
  const route = nameLaps(authored);
  const { alongTrack: places, state, issues } = snap(route, secondsAlone(motion, first));
  first.forEach((fix, i) => {
    if (state[i] === 'on') alongTrack[Math.floor((motion.time[fix] - begun) / 1000)] = places[i];
  });
  if (alongTrack.every(Number.isNaN))
    return { ...plain, offRoute: 'The truth never follows the route: nothing is said by section.' };
  if (issues.some(({ reason }) => reason === 'against-route'))
    return { ...plain, offRoute: 'The truth runs against the route: nothing is said by section.' };
  const start = alongTrack.findIndex((metres) => metres >= 0);
  let end = count;
  while (Number.isNaN(alongTrack[end - 1])) end--;
  /** The first second in which it had come so far. */
  const reached = (metres: number) => {
    for (let k = start; k < end; k++) if (alongTrack[k] >= metres) return k;
    return end;
  };
  const sections = route.sections.map(({ name, from, to }) => ({
    name,
    range: { first: reached(from), end: to >= route.length ? end : reached(to) },
  }));
  const cuts = [...new Set([0, count, ...sections.flatMap(({ range }) => [range.first, range.end])])].sort(
    (a, b) => a - b,
  );
  const parts = cuts.slice(1).map((cut, i) => ({ first: cuts[i], end: cut }));
  return { ...plain, sections, parts };
}

/** One true fix of each second, as a recording. */
function secondsAlone({ lon, lat, time, joined }: TrueMotion, fixes: readonly number[]): Recording {
  const pick = (column: Float64Array) => Float64Array.from(fixes, (i) => column[i]);
  let last = -1;
  const gapBefore = Uint8Array.from(fixes, (fix) => {
    let whole = last >= 0;
    for (let i = last + 1; i <= fix && whole; i++) whole = joined[i] === 1;
    last = fix;
    return whole ? 0 : 1;
  });
  return {
    name: 'truth',
    lon: pick(lon),
    lat: pick(lat),
    time: pick(time),
    gapBefore,
    issues: [],
    source: { format: 'columns' },
    attributes: {},
  };
}

import type { Side } from '../model';
import type { Interval } from '../statistics';
import type { LineVerdict, Verdict, VerdictLimit } from './Assessment';
import { equalGroups } from './equalGroups';
import { strayedTowards } from './strayedTowards';

/** What is known of one on a stretch: a recording, or a receiver over its runs. */
export interface ToldRow {
  readonly name: string;
  readonly meanAbsolute: number | null;
  readonly interval95: Interval | null;
  readonly bias: number | null;
  readonly biasInterval95: Interval | null;
  readonly lineVerdict: LineVerdict;
  readonly strayedTo: Side | null;
  readonly lineLimit: number;
  readonly sureSide: Side | null;
}

/** What is known of two on a stretch. */
export interface ToldPair {
  readonly first: string;
  readonly second: string;
  readonly difference: number | null;
  readonly interval95: Interval | null;
  readonly verdict: Verdict;
  readonly closer: string | null;
  readonly detectable: number | null;
  /** More runs that would decide it; null where that isn't known. */
  readonly moreRuns?: number | null;
  readonly limits: readonly VerdictLimit[];
}

/** Everything said of one stretch. */
export interface ToldStretch {
  readonly section: string | null;
  /** Those with a figure there. */
  readonly rows: readonly ToldRow[];
  readonly pairs: readonly ToldPair[];
  readonly overallPValue: number | null;
  /** Metres within which a difference counts as none. */
  readonly equivalence: number;
  /** "recordings", "receivers". */
  readonly ones: string;
  /** What the verdicts hold for: "this run only", "3 runs". */
  readonly holdsFor: string;
}

/** More open pairs than these are counted, not named. */
const MOST_NAMED = 3;

/** Of detectable differences so many times apart only the least says anything. */
const FAR = 10;

/** A detectable difference so many times what any of them lay off is no help to anybody. */
const GROSS = 5;

/** What else than chance keeps a pair undecided; chance has figures of its own. */
const HELD_BACK: Readonly<Record<VerdictLimit['reason'], string | null>> = {
  'includes-zero': null,
  'many-pairs': null,
  'nothing-in-common': 'nothing of it in common',
  'little-in-common': 'less than half of it in common',
  'too-short': 'too short for an interval',
  'one-run': 'one run ranks nothing',
  'below-floor': 'less apart than the reference, the lever arm and sparse fixes leave open',
  'off-the-route': 'one was off the route for more of it',
  'own-draft': 'the line was drafted from one of them',
  'sparse-fixes': 'no more apart than sparser fixes alone explain',
  outages: 'one of them was without a fix for more of it',
  unbalanced: 'never swapped between the places they were worn at',
};

/**
 * What is said of a stretch: who strayed for sure and to which side; who lay closer than whom for sure; what is equivalent;
 * what stays undecided, and what would decide it.
 *
 * On “towers”: “A” strayed to the right by 8.1 m (6.5 to 9.7); “B” kept within 5.0 m on average. Undecided (3 runs, 1 pair):
 * which lay closer (2.6 m would be found four times in five; 5 more runs would decide what was seen).
 */
export function stretchSentence(told: ToldStretch): string {
  const { section, rows, pairs, holdsFor } = told;
  const where = section === null ? 'Over the whole route' : `On “${section}”`;
  if (rows.length === 0) return `${where}: nothing was covered.`;
  const sure = [...lineWords(rows), ...closerWords(pairs), ...differWords(told), ...equalWords(told)];
  if (pairs.length === 0)
    sure.push(rows.length === 1 ? 'there is no other to compare it with' : 'nothing was compared');
  const open = [...openPairWords(told), ...openLineWords(rows)];
  if (open.length === 0) return `${where}: ${sure.join('; ')} (${holdsFor}).`;
  const many = pairs.length === 1 ? '1 pair' : `${pairs.length} pairs`;
  const openPairs = pairs.filter(({ verdict }) => verdict === 'undecided').length;
  const of = openPairs === 0 ? '' : openPairs === pairs.length ? `, ${many}` : `, ${openPairs} of ${many}`;
  const last = `ndecided (${holdsFor}${of}): ${open.join('; ')}.`;
  return sure.length === 0 ? `${where}: u${last}` : `${where}: ${sure.join('; ')}. U${last}`;
}

/** Who surely strayed, who surely kept to the line, and to which side where that is sure. */
function lineWords(rows: readonly ToldRow[]): string[] {
  const strayed = rows.flatMap((row) => {
    if (row.lineVerdict !== 'strayed') return [];
    if (row.strayedTo !== null) {
      return [`${quoted(row.name)} strayed to the ${row.strayedTo} by ${range(row.bias!, row.biasInterval95!)}`];
    }
    const towards = strayedTowards(row);
    const where = towards === 'both' ? ' to both sides' : '';
    const side = towards === 'left' || towards === 'right' ? `, surely ${towards} of the line` : '';
    return [`${quoted(row.name)} strayed${where}, ${range(row.meanAbsolute!, row.interval95!)} off on average${side}`];
  });
  const within = ({ lineLimit }: ToldRow) => `kept within ${lineLimit.toFixed(1)} m on average`;
  const sided = rows.flatMap((row) => {
    if (row.lineVerdict === 'strayed' || row.sureSide === null) return [];
    const kept = row.lineVerdict === 'kept' ? `${within(row)}, ` : 'lay ';
    return [
      `${quoted(row.name)} ${kept}surely ${row.sureSide} of the line by ${range(row.bias!, row.biasInterval95!)}`,
    ];
  });
  const kept = rows.filter(({ lineVerdict, sureSide }) => lineVerdict === 'kept' && sureSide === null);
  const keptWords = [...new Set(kept.map(within))].map(
    (words) => `${listed(kept.filter((row) => within(row) === words).map(({ name }) => name))} ${words}`,
  );
  return [...strayed, ...sided, ...keptWords];
}

/** Who surely lay closer than whom, by the closer one. */
function closerWords(pairs: readonly ToldPair[]): string[] {
  const told = pairs.filter(({ closer }) => closer !== null);
  return [...new Set(told.map(({ closer }) => closer!))].map((closer) => {
    const than = told.flatMap((pair) =>
      pair.closer === closer
        ? [
            `than ${quoted(closer === pair.first ? pair.second : pair.first)} by ${range(pair.difference!, pair.interval95!)}`,
          ]
        : [],
    );
    return `${quoted(closer)} lay closer ${joined(than)}`;
  });
}

function differWords({ pairs, overallPValue, ones }: ToldStretch): string[] {
  const differs = overallPValue !== null && overallPValue <= 0.05 && pairs.every(({ closer }) => closer === null);
  return differs ? [`at least one of the ${ones} differs, though it can’t be said which`] : [];
}

function equalWords({ rows, pairs, equivalence }: ToldStretch): string[] {
  const names = rows.map(({ name }) => name);
  const groups = equalGroups(
    names,
    pairs.filter(({ verdict }) => verdict === 'equivalent'),
  );
  if (groups.length === 0) return [];
  const [first, ...others] = groups.map(listed);
  return [`${first} lay equally close, within ${equivalence} m${others.map((group) => `, as did ${group}`).join('')}`];
}

/** Which pairs are open; what could have been found, how many runs would find what was seen, and what no run would mend. */
function openPairWords({ rows, pairs }: ToldStretch): string[] {
  const open = pairs.filter(({ verdict }) => verdict === 'undecided');
  if (open.length === 0) return [];
  const named = open.length < pairs.length && open.length <= MOST_NAMED;
  const either = open.map(({ first, second }) => `${quoted(first)} or ${quoted(second)}`).join(', ');
  const which = `which lay closer${named ? `, ${either}` : ''}`;
  const heldBack = ({ limits }: ToldPair) => limits.flatMap(({ reason }) => HELD_BACK[reason] ?? []);
  const byChance = open.filter((pair) => heldBack(pair).length === 0);
  const off = Math.max(...rows.map(({ meanAbsolute }) => meanAbsolute ?? 0));
  const known = byChance.flatMap((pair) => pair.detectable ?? []);
  const runs = byChance.flatMap((pair) => pair.moreRuns || []);
  const why = [...new Set(open.flatMap(heldBack))];
  const [least, most] = [Math.min(...known), Math.max(...known)];
  if (least <= GROSS * off) {
    const span =
      most > FAR * least
        ? `at best ${least.toFixed(1)}`
        : least.toFixed(1) === most.toFixed(1)
          ? least.toFixed(1)
          : `${least.toFixed(1)} to ${most.toFixed(1)}`;
    why.push(`${span} m would be found four times in five`);
  } else if (known.length > 0) why.push('too short to find any but a gross difference');
  if (runs.length > 0) {
    const [least, most] = [Math.min(...runs), Math.max(...runs)];
    const many = most === 1 ? 'run' : 'runs';
    why.push(`${least === most ? most : `${least} to ${most}`} more ${many} would decide what was seen`);
  }
  return [why.length === 0 ? which : `${which} (${why.join('; ')})`];
}

/** Who may have left the line or not. */
function openLineWords(rows: readonly ToldRow[]): string[] {
  const open = rows.filter(({ lineVerdict }) => lineVerdict === 'undecided');
  return open.length === 0
    ? []
    : [`whether ${listed(open.map(({ name }) => name))} strayed beyond ${limitsOf(open)} m`];
}

function limitsOf(rows: readonly ToldRow[]): string {
  const limits = rows.map(({ lineLimit }) => lineLimit);
  const [least, most] = [Math.min(...limits).toFixed(1), Math.max(...limits).toFixed(1)];
  return least === most ? most : `${least} to ${most}`;
}

function range(value: number, [low, high]: Interval): string {
  const [a, b] = [Math.abs(low), Math.abs(high)].sort((x, y) => x - y);
  return `${Math.abs(value).toFixed(1)} m (${a.toFixed(1)} to ${b.toFixed(1)})`;
}

function quoted(name: string): string {
  return `“${name}”`;
}

function listed(names: readonly string[]): string {
  return joined(names.map(quoted));
}

/** "A", "A and B", "A, B and C". */
function joined(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

import type { Side } from '../model';
import type { Interval } from '../statistics';
import type { LineVerdict, Verdict } from './Assessment';

/** What is known of one on a stretch: a recording, or a receiver over its runs. */
export interface ToldRow {
  readonly name: string;
  readonly meanAbsolute: number | null;
  readonly interval95: Interval | null;
  readonly bias: number | null;
  readonly biasInterval95: Interval | null;
  readonly lineVerdict: LineVerdict;
  readonly strayedTo: Side | null;
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
}

/** Everything said of one stretch. */
export interface ToldStretch {
  readonly section: string | null;
  readonly rows: readonly ToldRow[];
  readonly pairs: readonly ToldPair[];
  readonly overallPValue: number | null;
  /** "recordings", "receivers". */
  readonly ones: string;
  /** What the verdicts hold for: "This run only.", "3 runs." */
  readonly holdsFor: string;
}

/**
 * What is said of a stretch: who strayed for sure and to which side; who lay closer than whom for sure; what is equivalent;
 * what stays undecided, and what would decide it.
 */
export function stretchSentence({ section, rows, pairs, overallPValue, ones, holdsFor }: ToldStretch): string {
  const where = section === null ? 'Over the whole route' : `On “${section}”`;
  if (rows.length === 0) return `${where}: nothing was covered.`;
  const strayed = rows.flatMap((row) => {
    if (row.lineVerdict !== 'strayed') return [];
    return row.strayedTo === null
      ? [`“${row.name}” strayed to both sides, ${range(row.meanAbsolute!, row.interval95!)} on average`]
      : [`“${row.name}” strayed to the ${row.strayedTo}, by ${range(row.bias!, row.biasInterval95!)}`];
  });
  const told = pairs.flatMap(({ first, second, closer, difference, interval95 }) =>
    closer === null
      ? []
      : [`“${closer}” lay closer than “${closer === first ? second : first}” by ${range(difference!, interval95!)}`],
  );
  const equal = pairs.filter(({ verdict }) => verdict === 'equivalent');
  const equivalent =
    equal.length === 0
      ? []
      : [equal.map(({ first, second }) => `“${first}” and “${second}” lay equally close`).join(', ')];
  const open = pairs.filter(({ verdict }) => verdict === 'undecided');
  const differs =
    overallPValue !== null && overallPValue <= 0.05 && told.length === 0 ? [`at least one of the ${ones} differs`] : [];
  const parts = [...strayed, ...told, ...differs, ...equivalent];
  if (open.length > 0) parts.push(`${openWords(open, pairs.length)}${wouldDecide(open)}`);
  if (rows.length === 1) {
    parts.push(`one ${ones.slice(0, -1)}, nothing to compare it with`);
  }
  return `${where}: ${parts.join('; ')}. ${holdsFor}`;
}

function openWords(open: readonly ToldPair[], of: number): string {
  if (open.length === 1 && of === 1) return 'undecided which lay closer';
  return open.length === of ? `undecided (${of} pairs)` : `${open.length} of ${of} pairs undecided`;
}

/** What could have been found, and how many runs would find what was seen. */
function wouldDecide(open: readonly ToldPair[]): string {
  const detectable = open.flatMap((pair) => pair.detectable ?? []);
  const runs = open.flatMap((pair) => pair.moreRuns || []);
  const said: string[] = [];
  if (detectable.length > 0) {
    const [least, most] = [Math.min(...detectable).toFixed(1), Math.max(...detectable).toFixed(1)];
    said.push(`${least === most ? most : `${least} to ${most}`} m would be found four times in five`);
  }
  if (runs.length > 0) {
    const [least, most] = [Math.min(...runs), Math.max(...runs)];
    const many = most === 1 ? 'run' : 'runs';
    said.push(`${least === most ? most : `${least} to ${most}`} more ${many} would settle differences as seen`);
  }
  return said.length > 0 ? ` (${said.join('; ')})` : '';
}

function range(value: number, [low, high]: Interval): string {
  const [a, b] = [Math.abs(low), Math.abs(high)].sort((x, y) => x - y);
  return `${Math.abs(value).toFixed(1)} m (${a.toFixed(1)} to ${b.toFixed(1)})`;
}

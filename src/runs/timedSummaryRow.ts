import { type Interval, meanLimits, studentInterval, studentQuantile } from '../statistics';
import type { ErrorFigure, TimedRow } from '../truth';
import { joinedFigures } from './joinedFigures';
import { mean } from './mean';
import type { Run } from './summaryRuns';
import type { ErrorOverRuns, FigureOverRuns, SizeOverRuns, TimedSummaryRow } from './TestSummary';
import type { TimedMember } from './TimedMember';

/** What a run says of a figure. */
interface Told {
  readonly value: number;
  readonly interval95: Interval | null;
  /** Of Student's t in the interval. */
  readonly degrees: number;
}

const sizes = ['sd', 'rms', 'p50', 'p68', 'p75', 'p95'] as const;
const figures = ['mean', ...sizes, 'max'] as const;

/** One receiver on one section over the runs; the others tell how much runs differ. */
export function timedSummaryRow(
  runs: readonly Run<TimedMember>[],
  receivers: readonly string[],
  receiver: string,
  section: string | null,
): TimedSummaryRow {
  const rowsBy = new Map(
    receivers.map((name) => [
      name,
      runs.map(({ byReceiver }) => {
        const member = byReceiver.get(name);
        return member?.timed.rows.find((row) => row.recording === member.recording && row.section === section);
      }),
    ]),
  );
  const mine = rowsBy.get(receiver)!;
  const known = mine.flatMap((row) => row ?? []);
  /** A figure's interval over the runs, and the mean. */
  const over = (scale: 'size' | 'plain', toldBy: (row: TimedRow) => Told | null) => {
    const told = receivers.map((name) => rowsBy.get(name)!.flatMap((row) => (row && toldBy(row)) ?? []));
    const own = told[receivers.indexOf(receiver)];
    return own.length === 0 ? null : overRuns(told, receivers.indexOf(receiver), scale);
  };
  const plain = (toldBy: (row: TimedRow) => Told | null): FigureOverRuns | null => {
    const joined = over('plain', toldBy);
    return joined && { ...joined, byRun: mine.map((row) => (row && toldBy(row)?.value) ?? null) };
  };
  const size = (toldBy: (row: TimedRow) => Told | null): SizeOverRuns | null => {
    const joined = over('size', toldBy);
    return joined && { mean: joined.mean, interval95: joined.interval95 };
  };
  const doubts = known.map(({ doubt95 }) => doubt95);
  const doubt95 = doubts.length === 0 || doubts.includes(null) ? null : Math.max(...(doubts as number[]));
  const component = (kind: 'horizontal' | 'along' | 'across' | 'up'): ErrorOverRuns | null => {
    const mean = (row: TimedRow): Told | null =>
      row[kind] && {
        value: row[kind].mean,
        interval95: row[kind].interval95,
        degrees: row[kind].degrees?.mean ?? 1,
      };
    const scale = kind === 'horizontal' ? 'size' : 'plain';
    const joined = over(scale, mean);
    if (joined === null) return null;
    const spread = (figure: (typeof sizes)[number]) =>
      size(
        (row) =>
          row[kind] && {
            value: row[kind][figure],
            interval95: row[kind].intervals95?.[figure] ?? null,
            degrees: row[kind].degrees?.spread ?? 1,
          },
      )!;
    const told = {
      ...joined,
      byRun: mine.map((row) => row?.[kind]?.mean ?? null),
      sd: spread('sd'),
      rms: spread('rms'),
      p50: spread('p50'),
      p68: spread('p68'),
      p75: spread('p75'),
      p95: spread('p95'),
      max: Math.max(...known.flatMap((row) => row[kind]?.max ?? [])),
    };
    const sizeOf = (figure: keyof ErrorFigure & (typeof figures)[number]) => {
      const value = told[figure];
      return Math.abs(typeof value === 'number' ? value : value.mean);
    };
    return { ...told, unresolved: figures.filter((figure) => sizeOf(figure) < (doubt95 ?? 0)) };
  };
  const radius = (figure: 'cep50' | 'ce95') =>
    size((row) => {
      const value = row[figure];
      const interval95 = row.circularIntervals95?.[figure] ?? null;
      return value === null ? null : { value, interval95, degrees: row.horizontal?.degrees?.spread ?? 1 };
    });
  const horizontal = component('horizontal');
  const outages = mine.flatMap((row, i) =>
    row?.longestOutage ? [{ seconds: row.longestOutage.seconds, run: runs[i].name }] : [],
  );
  return {
    receiver,
    section,
    runs: known.filter((row) => row.horizontal !== null).length,
    horizontal,
    along: component('along'),
    across: component('across'),
    up: component('up'),
    cep50: radius('cep50'),
    ce95: radius('ce95'),
    delay: plain(
      ({ delay }) => delay && { value: delay.seconds, interval95: delay.interval95, degrees: delay.degrees },
    ),
    availability: mean(known.flatMap((row) => row.availability ?? [])),
    longestOutage: outages.length > 0 ? outages.reduce((a, b) => (b.seconds > a.seconds ? b : a)) : null,
    doubt95,
    resolution: horizontal && doubt95 ? horizontal.mean / doubt95 : null,
  };
}

/** The mean over runs of one of several receivers' figures, and its interval: of a size, on the scale of logarithms. */
function overRuns(
  told: readonly (readonly Told[])[],
  own: number,
  scale: 'size' | 'plain',
): Omit<FigureOverRuns, 'byRun'> {
  const { mean, sd } = studentInterval(told[own].map(({ value }) => value))!;
  const means = told.map((mine) => mine.reduce((sum, { value }) => sum + value / mine.length, 0) || 1);
  const joined = joinedFigures(
    told.map((mine, i) => {
      const known = mine.flatMap(({ interval95, degrees }) =>
        // a little more than a standard error: intervals are widened
        interval95 === null
          ? []
          : [{ degrees, variance: (halfWidth(interval95, scale) / studentQuantile(0.95, degrees)) ** 2 }],
      );
      // pooled: the run that knows its own scatter best weighs most
      const degrees = known.reduce((sum, one) => sum + one.degrees, 0);
      const pooled = known.reduce((sum, one) => sum + (one.degrees / degrees) * one.variance, 0);
      return {
        values: mine.map(({ value }) => (scale === 'size' ? value / means[i] : value)),
        foretold: known.length === mine.length ? mine.map(() => pooled) : [],
      };
    }),
  )[own];
  if (joined === null || sd === null) return { mean, interval95: null, betweenRunSd: sd };
  const quantile = studentQuantile(0.95, joined.degrees);
  const half = quantile * Math.sqrt(joined.variance);
  return {
    mean,
    interval95:
      scale === 'size' ? meanLimits(mean, joined.variance * mean * mean, quantile) : [mean - half, mean + half],
    betweenRunSd: sd,
  };
}

function halfWidth([low, high]: Interval, scale: 'size' | 'plain'): number {
  if (scale === 'plain') return (high - low) / 2;
  return low > 0 ? Math.log(high / low) / 2 : 0;
}
